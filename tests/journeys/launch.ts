import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { DIST } from '../../scripts/build.mjs';
import { findChromium } from '../../scripts/chromium.mjs';
import { serveFolder, type Served } from '../../scripts/serve.mjs';

/** The screen of a usual phone, in CSS pixels. */
export const PHONE = { width: 390, height: 844 };
export const LAPTOP = { width: 1280, height: 800 };

/** The service worker fetches all that the app consists of; on a busy machine that takes a while. */
const LONGEST_INSTALL_MS = 30_000;

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
  /** IANA zone of the device. */
  readonly timezoneId?: string;
  /** The device's clock starts here and runs on; ISO 8601 with offset. */
  readonly startsAt?: string;
  /** More command-line flags for Chromium, e.g. for a microphone played from a file. */
  readonly flags?: readonly string[];
  readonly permissions?: readonly string[];
}

/** The built app in a browser of its own, with what went wrong in it so far. */
export interface Launched {
  readonly page: Page;
  readonly context: BrowserContext;
  readonly browser: Browser;
  /** Where the app is served, with the closing slash. */
  readonly address: string;
  /** Errors on the console, refusals by the security policy and uncaught exceptions, of every tab. */
  readonly consoleErrors: string[];
  /** Requests that failed or were answered with 400 or above, of every tab. */
  readonly failedRequests: string[];
  /** Another device with nothing on it: its own storage, its own network, the same clock. */
  anotherDevice(): Promise<Page>;
  /** Another tab of the same browser profile, empty; `goto(address)` opens the app in it. */
  secondTab(): Promise<Page>;
  /** Waits until the service worker has all that the app needs, so that it can do without network. */
  readyForOffline(): Promise<void>;
  /** Takes the network away and ends the server, so that nothing but the device can answer. */
  cutNetwork(): Promise<void>;
  /** Brings the server back at the same address, and the network. */
  restoreNetwork(): Promise<void>;
  close(): Promise<void>;
}

/** Notes in the two lists whatever goes wrong in a tab. */
function listen(page: Page, consoleErrors: string[], failedRequests: string[]): void {
  page.on('console', (message) => {
    if (message.type() === 'error') consoleErrors.push(message.text());
  });
  page.on('pageerror', (error) => consoleErrors.push(`uncaught: ${error.message}`));
  page.on('requestfailed', (request) => {
    const why = request.failure()?.errorText ?? 'failed';
    // A page that is left or loaded anew calls off what it was still waiting for.
    if (why !== 'net::ERR_ABORTED') failedRequests.push(`${request.url()}: ${why}`);
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
  let served: Served | null = await serveFolder(DIST);
  const { address, port } = served;
  const browser = await chromium.launch({
    executablePath,
    args: [...QUIET_FLAGS, ...(options.flags ?? [])],
  });
  const consoleErrors: string[] = [];
  const failedRequests: string[] = [];
  const newDevice = async (): Promise<BrowserContext> => {
    const device = await browser.newContext({
      viewport: options.viewport ?? PHONE,
      deviceScaleFactor: 1,
      hasTouch: true,
      locale: 'en-GB',
      timezoneId: options.timezoneId ?? 'America/New_York',
      colorScheme: options.colorScheme ?? 'dark',
      reducedMotion: 'reduce',
      permissions: [...(options.permissions ?? [])],
    });
    if (options.startsAt !== undefined) await device.clock.install({ time: options.startsAt });
    device.on('page', (page) => {
      listen(page, consoleErrors, failedRequests);
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
    async close() {
      await browser.close();
      await served?.close();
    },
  };
}

/** Waits until the service worker of a page has all that the app needs. */
export async function readyForOffline(page: Page): Promise<void> {
  await page.waitForFunction(
    async () => (await navigator.serviceWorker.getRegistration())?.active?.state === 'activated',
    undefined,
    { timeout: LONGEST_INSTALL_MS },
  );
}
