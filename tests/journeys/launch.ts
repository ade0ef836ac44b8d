import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { DIST } from '../../scripts/build.mjs';
import { findChromium } from '../../scripts/chromium.mjs';
import { serveFolder, type Served } from '../../scripts/serve.mjs';
import { type OpenApp, readyForOffline } from './engines/open-app.ts';
import { film } from './film.ts';
import { sheetsOf } from './pdf.ts';
import type { Picture } from './png.ts';

/** The screen of a usual phone, in CSS pixels. */
export const PHONE = { width: 390, height: 844 };
export const LAPTOP = { width: 1280, height: 800 };

const QUIET_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface LaunchOptions {
  readonly viewport?: { readonly width: number; readonly height: number };
  /** What the device's setting for dark or light says. */
  readonly colorScheme?: 'dark' | 'light';
  /** Language and country of the device, BCP 47; British English if it is not said. */
  readonly locale?: string;
  /** IANA zone of the device. */
  readonly timezoneId?: string;
  /** The device's clock starts here and runs on; ISO 8601 with offset. */
  readonly startsAt?: string;
  /** Path of a WAV file that the microphone hears, over and over; nothing is asked of anybody. */
  readonly microphone?: string;
  /** What the camera sees, over and over, each picture for a quarter of a second. */
  readonly camera?: readonly Picture[];
}

/** The built app in a browser that Playwright drives. */
export interface Launched extends OpenApp {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly browser: Browser;
  anotherDevice(): Promise<Page>;
  secondTab(): Promise<Page>;
}

/** Notes in the two lists whatever goes wrong in a tab. */
function listen(
  page: Page,
  consoleErrors: string[],
  failedRequests: string[],
  { isOurs = () => false }: Particulars,
): void {
  page.on('console', (message) => {
    const text = message.text();
    if (message.type() === 'error' && !isOurs(text)) consoleErrors.push(text);
  });
  page.on('pageerror', ({ message }) => {
    if (!isOurs(message)) consoleErrors.push(`uncaught: ${message}`);
  });
  page.on('requestfailed', (request) => {
    const why = request.failure()?.errorText ?? 'failed';
    // A page that is left or loaded anew calls off what it was still waiting for.
    if (!/^(net::ERR_ABORTED|NS_BINDING_ABORTED)/.test(why)) {
      failedRequests.push(`${request.url()}: ${why}`);
    }
  });
  page.on('response', (response) => {
    if (response.status() >= 400) failedRequests.push(`${response.url()}: ${response.status()}`);
  });
}

/**
 * Serves dist on loopback and starts Chromium with one empty tab of phone size (one device pixel to
 * a CSS pixel). `page.goto(address)` opens the app. Close it when done, or the browser stays.
 */
export async function launch(options: LaunchOptions = {}): Promise<Launched> {
  const executablePath = findChromium();
  if (executablePath === null) {
    throw new Error('No Chromium found. Install it, or set CHROMIUM to the path of the program.');
  }
  const args = [...QUIET_FLAGS];
  if (options.microphone !== undefined) {
    args.push(`--use-file-for-fake-audio-capture=${options.microphone}`);
  }
  let folder = '';
  if (options.camera !== undefined) {
    folder = await mkdtemp(join(tmpdir(), 'firstdark-camera-'));
    const path = join(folder, 'camera.y4m');
    await film(options.camera, path);
    args.push(`--use-file-for-fake-video-capture=${path}`);
  }
  if (args.length > QUIET_FLAGS.length) args.push('--use-fake-device-for-media-stream');
  const browser = await chromium.launch({ executablePath, args });
  const app = await openIn(browser, options, {
    permissions: [
      ...(options.microphone === undefined ? [] : ['microphone']),
      ...(options.camera === undefined ? [] : ['camera']),
    ],
  });
  return {
    ...app,
    async close() {
      await app.close();
      if (folder !== '') await rm(folder, { recursive: true, force: true });
    },
  };
}

/** What is particular to an engine that Playwright drives. */
export interface Particulars {
  readonly permissions?: readonly string[];
  /** Makes a device of it ready before it has a page. */
  prepare?(device: BrowserContext): Promise<void>;
  /** Makes a page of it ready before it is used. */
  adopt?(page: Page): void;
  /** An error on the console that is the tools' own doing. */
  isOurs?(text: string): boolean;
}

/** Serves dist and opens one empty tab in a browser that Playwright drives. */
export async function openIn(
  browser: Browser,
  options: LaunchOptions,
  particulars: Particulars,
): Promise<Launched> {
  let served: Served | null = await serveFolder(DIST);
  const { address, port } = served;
  const consoleErrors: string[] = [];
  const failedRequests: string[] = [];
  const newDevice = async (): Promise<BrowserContext> => {
    const device = await browser.newContext({
      viewport: options.viewport ?? PHONE,
      deviceScaleFactor: 1,
      hasTouch: true,
      locale: options.locale ?? 'en-GB',
      timezoneId: options.timezoneId ?? 'America/New_York',
      colorScheme: options.colorScheme ?? 'dark',
      reducedMotion: 'reduce',
      permissions: [...(particulars.permissions ?? [])],
    });
    if (options.startsAt !== undefined) await device.clock.install({ time: options.startsAt });
    await particulars.prepare?.(device);
    device.on('page', (page) => {
      particulars.adopt?.(page);
      listen(page, consoleErrors, failedRequests, particulars);
    });
    return device;
  };
  const context = await newDevice();
  const page = await context.newPage();

  return {
    page,
    context,
    browser,
    address,
    consoleErrors,
    failedRequests,
    anotherDevice: async () => (await newDevice()).newPage(),
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
    async drag(from, to) {
      await from.hover();
      await page.mouse.down();
      // A browser takes the first move for the start of a drag, the second for being over something.
      await to.hover();
      await to.hover();
      await page.mouse.up();
    },
    async printedSheets(printed, format) {
      const pdf = await (printed as Page).pdf({ format, printBackground: false });
      return sheetsOf(pdf);
    },
    async close() {
      await browser.close();
      await served?.close();
    },
  };
}
