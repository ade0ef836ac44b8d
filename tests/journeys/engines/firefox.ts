import { readFile } from 'node:fs/promises';
import { type Browser, type Page, firefox } from 'playwright-core';
import { findFirefox } from '../../../scripts/engines.mjs';
import { type Launched, type LaunchOptions, openIn } from '../launch.ts';
import { dragByEvents } from './drag.ts';
import { allow, framesOf, hearInstead, seeInstead } from './media.ts';
import { swapPaperAndScreen } from './print-media.ts';

/** Starting Firefox on a machine that is busy with other tests. */
const LONGEST_START_MS = 90_000;

const CM_IN_INCH = 2.54;

/** Firefox's number for a permission that is refused without a question. */
const REFUSED = 2;

/** The style that Playwright hides the caret with in pictures, which the app's policy refuses. */
const CARET_STYLE = 'sha256-YjaKGiklmzC6wjXA513HAMmzus8VE61XCOT+SmwNZWA=';

/** Firefox's own names for what is on or off in a device; 1 is light, 0 dark. */
function preferences({ colorScheme = 'dark' }: LaunchOptions): Record<string, number | boolean> {
  return {
    'layout.css.prefers-color-scheme.content-override': colorScheme === 'dark' ? 0 : 1,
    'ui.prefersReducedMotion': 1,
    // A sound card of Firefox's own: where there is no real one, no audio graph would ever run.
    'media.cubeb.force_mock_context': true,
    'media.cubeb.sandbox': false,
    // Nobody is there to answer; what a journey feeds is put in their place.
    'permissions.default.microphone': REFUSED,
    'permissions.default.camera': REFUSED,
    'media.autoplay.default': 0,
  };
}

interface Session {
  send(method: string, parameters: unknown): Promise<unknown>;
  emit(name: string, event: unknown): boolean;
}

/** What Playwright has no public way to: the object inside a browser or page that talks to Firefox. */
function inside<Inner>(outer: Browser | Page): Inner {
  const { _connection } = outer as unknown as { _connection: { toImpl(one: unknown): Inner } };
  return _connection.toImpl(outer);
}

/**
 * Firefox ESR answers "unknown command" where it is asked to feign dark, light or reduced motion
 * (WebDriver BiDi `emulation.setMediaFeaturesOverride`); its preferences say that already, so the
 * command is not sent.
 */
function leaveOutMediaFeatures(browser: Browser): void {
  const { _browserSession: session } = inside<{ _browserSession: Session }>(browser);
  const send = session.send.bind(session);
  session.send = (method, parameters) =>
    method === 'emulation.setMediaFeaturesOverride'
      ? Promise.resolve({})
      : send(method, parameters);
}

/** Playwright gives WebDriver BiDi the size of paper in inches; `browsingContext.print` takes cm. */
function printInCentimetres(page: Page): void {
  const { delegate } = inside<{ delegate: { _session: Session } }>(page);
  const session = delegate._session;
  const send = session.send.bind(session);
  session.send = (method, parameters) => {
    if (method !== 'browsingContext.print') return send(method, parameters);
    const asked = parameters as {
      readonly page: { readonly width: number; readonly height: number };
    };
    const { width, height } = asked.page;
    return send(method, {
      ...asked,
      page: { width: width * CM_IN_INCH, height: height * CM_IN_INCH },
    });
  };
}

/** Firefox ESR names no navigation for a download that a page made itself; its address is a name too. */
function nameDownloads(page: Page): void {
  const { delegate } = inside<{ delegate: { _session: Session } }>(page);
  const session = delegate._session;
  const emit = session.emit.bind(session);
  session.emit = (name, event) => {
    if (!name.startsWith('browsingContext.download')) return emit(name, event);
    const told = event as { readonly url?: string; readonly navigation?: string | null };
    return emit(name, { ...told, navigation: told.navigation ?? told.url });
  };
}

/** Paper instead of screen is not feigned by Firefox either: the rules of the page are turned round. */
function printByRules(page: Page): void {
  let medium = 'screen';
  page.emulateMedia = async ({ media } = {}) => {
    if ((media ?? medium) === medium) return;
    medium = media ?? medium;
    await page.evaluate(swapPaperAndScreen);
  };
}

/** As `launch`, in Firefox ESR, by WebDriver BiDi. */
export async function launchFirefox(options: LaunchOptions = {}): Promise<Launched> {
  const executablePath = findFirefox();
  if (executablePath === null) {
    throw new Error('No Firefox found. Install it, or set FIREFOX to the path of the program.');
  }
  const browser = await firefox.launch({
    channel: 'moz-firefox',
    executablePath,
    firefoxUserPrefs: preferences(options),
    timeout: LONGEST_START_MS,
  });
  leaveOutMediaFeatures(browser);
  const { microphone, camera } = options;
  const app = await openIn(browser, options, {
    adopt(page) {
      printByRules(page);
      printInCentimetres(page);
      nameDownloads(page);
    },
    isOurs: (text) => text.includes(CARET_STYLE),
    async prepare(device) {
      if (microphone !== undefined) {
        await device.addInitScript(hearInstead, (await readFile(microphone)).toString('base64'));
        await device.addInitScript(allow, ['microphone']);
      }
      if (camera !== undefined) {
        await device.addInitScript(seeInstead, framesOf(camera));
        await device.addInitScript(allow, ['camera']);
      }
    },
  });
  return { ...app, drag: dragByEvents };
}
