import type { JourneyDevice, JourneyLocator, JourneyPage } from './journey-page.ts';

/** The built app in a browser of its own, with what went wrong in it so far. */
export interface OpenApp {
  readonly page: JourneyPage;
  readonly context: JourneyDevice;
  /** Where the app is served, with the closing slash. */
  readonly address: string;
  /** Errors on the console, refusals by the security policy and uncaught exceptions, of every tab. */
  readonly consoleErrors: string[];
  /** Requests that failed or were answered with 400 or above, of every tab. */
  readonly failedRequests: string[];
  /** Another device with nothing on it: its own storage, its own network, the same clock. */
  anotherDevice(): Promise<JourneyPage>;
  /** Another tab of the same browser profile, empty; `goto(address)` opens the app in it. */
  secondTab(): Promise<JourneyPage>;
  /** Waits until the service worker has all that the app needs, so that it can do without network. */
  readyForOffline(): Promise<void>;
  /** Takes the network away and ends the server, so that nothing but the device can answer. */
  cutNetwork(): Promise<void>;
  /** Brings the server back at the same address, and the network. */
  restoreNetwork(): Promise<void>;
  close(): Promise<void>;
  /** Drags what is seen of one element onto another; both are in sight. */
  drag(from: JourneyLocator, to: JourneyLocator): Promise<void>;
  /** How many sheets of paper the page takes when it is printed. */
  printedSheets(page: JourneyPage, format: 'A4' | 'Letter'): Promise<number>;
}

/** The service worker fetches all that the app consists of; on a busy machine that takes a while. */
const LONGEST_INSTALL_MS = 60_000;

/** Waits until the service worker of a page has all that the app needs. */
export async function readyForOffline(page: JourneyPage): Promise<void> {
  const until = Date.now() + LONGEST_INSTALL_MS;
  for (;;) {
    const state = await page.evaluate(
      async () => (await navigator.serviceWorker.getRegistration())?.active?.state ?? 'none',
    );
    if (state === 'activated') return;
    if (Date.now() > until) throw new Error(`The service worker is not ready: ${state}.`);
    await page.waitForTimeout(100);
  }
}
