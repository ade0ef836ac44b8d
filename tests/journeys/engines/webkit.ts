import { readFile } from 'node:fs/promises';
import { DIST } from '../../../scripts/build.mjs';
import { serveFolder, type Served } from '../../../scripts/serve.mjs';
import { type LaunchOptions, PHONE } from '../launch.ts';
import { startDeviceProxy, TELL } from './device-proxy.ts';
import { downloadIn } from './downloads.ts';
import { dragByEvents } from './drag.ts';
import { shiftClock, speak, tellOfErrors } from './first-script.ts';
import type { JourneyDevice, JourneyPage } from './journey-page.ts';
import { allow, framesOf, hearInstead, seeInstead } from './media.ts';
import { type OpenApp, readyForOffline } from './open-app.ts';
import { startWebKit } from './webdriver.ts';
import { callOf, Turns, WebKitPage } from './webkit-page.ts';

/** Between margins of 14 mm, at 96 dots an inch: A4 (210 x 297 mm), Letter (215.9 x 279.4 mm). */
const PAPERS = { A4: { width: 688, height: 1017 }, Letter: { width: 710, height: 950 } };

/** A browser with its first window, its network and its clock. */
interface Device extends JourneyDevice {
  newPage(): Promise<WebKitPage>;
  isOnline(online: boolean): void;
}

/** What goes wrong, of all devices of an app. */
interface Faults {
  readonly consoleErrors: string[];
  readonly failedRequests: string[];
}

async function startDevice(options: LaunchOptions, faults: Faults): Promise<Device> {
  const proxy = await startDeviceProxy({
    told: (text) => faults.consoleErrors.push(text),
    failed: (text) => faults.failedRequests.push(text),
  });
  const { startsAt, timezoneId = 'America/New_York', colorScheme = 'dark' } = options;
  let ahead_ms = startsAt === undefined ? 0 : Date.parse(startsAt) - Date.now();
  const always = [callOf(speak, [['en-GB', 'en']]), callOf(tellOfErrors, [TELL])];
  if (options.microphone !== undefined) {
    always.push(callOf(hearInstead, [(await readFile(options.microphone)).toString('base64')]));
    always.push(callOf(allow, [['microphone']]));
  }
  if (options.camera !== undefined) {
    always.push(callOf(seeInstead, [framesOf(options.camera)]), callOf(allow, [['camera']]));
  }
  const writeFirstScript = (): void => {
    proxy.firstScript = [callOf(shiftClock, [ahead_ms]), ...always].join(';\n');
  };
  writeFirstScript();

  const session = await startWebKit({ timezoneId, colorScheme, proxyPort: proxy.port }).catch(
    async (problem: unknown) => {
      await proxy.close();
      throw problem;
    },
  );
  const firstWindow = String(await session.command('GET', '/window'));
  const turns = new Turns(session, firstWindow);
  const pages: WebKitPage[] = [];

  const device: Device = {
    clock: {
      async setSystemTime(time) {
        ahead_ms = Date.parse(time) - Date.now();
        writeFirstScript();
        const set = `window.journeyClock && void (window.journeyClock.ahead_ms = ${ahead_ms})`;
        for (const page of pages) await page.run(set);
      },
    },
    isOnline(online) {
      proxy.isOnline = online;
    },
    async setOffline(offline) {
      proxy.isOnline = !offline;
      const happened = offline ? 'offline' : 'online';
      for (const page of pages) await page.run(`void dispatchEvent(new Event('${happened}'))`);
    },
    async newPage() {
      const window =
        pages.length === 0
          ? firstWindow
          : (
              (await session.command('POST', '/window/new', { type: 'window' })) as {
                handle: string;
              }
            ).handle;
      const page = new WebKitPage(session, window, turns, {
        device,
        addFirstScript(source) {
          always.push(source);
          writeFirstScript();
        },
        folder: session.folder,
        nextDownload: () => downloadIn(session.folder),
        closed: () => pages.splice(pages.indexOf(page), 1),
      });
      pages.push(page);
      await page.setViewportSize(options.viewport ?? PHONE);
      return page;
    },
    async close() {
      await session.close();
      await proxy.close();
    },
  };
  return device;
}

/** As `launch`, in WebKitGTK, by WebDriver. */
export async function launchWebKit(options: LaunchOptions = {}): Promise<OpenApp> {
  let served: Served | null = await serveFolder(DIST);
  const { address, port } = served;
  const faults: Faults = { consoleErrors: [], failedRequests: [] };
  const devices: Device[] = [];
  const closeAll = async (): Promise<void> => {
    for (const device of devices) await device.close();
    await served?.close();
  };
  try {
    const context = await startDevice(options, faults);
    devices.push(context);
    const page = await context.newPage();
    return {
      ...faults,
      page,
      context,
      address,
      async anotherDevice() {
        const other = await startDevice(options, faults);
        devices.push(other);
        return other.newPage();
      },
      secondTab: () => context.newPage(),
      readyForOffline: () => readyForOffline(page),
      async cutNetwork() {
        await context.setOffline(true);
        await served?.close();
        served = null;
      },
      async restoreNetwork() {
        served ??= await serveFolder(DIST, { port });
        await context.setOffline(false);
      },
      drag: dragByEvents,
      printedSheets,
      close: closeAll,
    };
  } catch (problem) {
    await closeAll();
    throw problem;
  }
}

/** WebDriver of WebKitGTK prints nothing: the page is laid out as on paper, and its height taken. */
async function printedSheets(page: JourneyPage, format: 'A4' | 'Letter'): Promise<number> {
  const before = await page.evaluate(() => ({ width: innerWidth, height: innerHeight }));
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize(PAPERS[format]);
  const height_px = await page.evaluate(() => document.body.getBoundingClientRect().height);
  await page.emulateMedia({ media: 'screen' });
  await page.setViewportSize(before);
  return Math.ceil(height_px / PAPERS[format].height);
}
