import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type {
  JourneyDevice,
  JourneyDownload,
  JourneyPage,
  Role,
  RoleOptions,
} from './journey-page.ts';
import { swapPaperAndScreen } from './print-media.ts';
import { makeQueries, type Step } from './queries.ts';
import { DriverError, type DriverSession, SCREEN } from './webdriver.ts';
import { sent, WebKitLocator } from './webkit-locator.ts';

const roleLibrary = readFileSync(
  createRequire(import.meta.url).resolve(
    '@testing-library/dom/dist/@testing-library/dom.umd.min.js',
  ),
  'utf8',
);

/** Puts the tools to find elements into a page; gives nothing. */
const TOOLS = `${roleLibrary}
window.journeyQueries = (${makeQueries.toString()})(window.TestingLibraryDom);`;

const LONGEST_NAVIGATION_MS = 30_000;

/** The key codes of the W3C's WebDriver, section 17.4.2. */
const KEYS: Readonly<Record<string, string>> = { Tab: '\ue004', Enter: '\ue007', Escape: '\ue00c' };

/** What goes with a page besides what WebDriver says of it. */
export interface PageSurroundings {
  readonly device: JourneyDevice;
  /** Where files for it may lie. */
  readonly folder: string;
  addFirstScript(source: string): void;
  closed(): void;
  nextDownload(): Promise<JourneyDownload>;
}

/** A function to be run in a page, with what it is given. */
export const callOf = (code: { toString(): string } | string, given: readonly unknown[]): string =>
  typeof code === 'string'
    ? code
    : `(${code.toString()})(${given.map((one) => (one === undefined ? 'undefined' : JSON.stringify(one))).join(', ')})`;

/** One window of WebKitGTK, answering as a page of Playwright does. */
export class WebKitPage implements JourneyPage {
  readonly #session: DriverSession;
  readonly #window: string;
  readonly #around: PageSurroundings;
  readonly #turn: Turns;
  #medium: 'print' | 'screen' = 'screen';

  constructor(session: DriverSession, window: string, turn: Turns, around: PageSurroundings) {
    this.#session = session;
    this.#window = window;
    this.#turn = turn;
    this.#around = around;
  }

  /** One command to this window; commands of all windows of a browser wait for each other. */
  command(method: 'GET' | 'POST' | 'DELETE', path: string, body?: object): Promise<unknown> {
    return this.#turn.take(this.#window, () => this.#session.command(method, path, body));
  }

  /** Runs an expression in the page, waiting for it if it is a promise. */
  run(expression: string): Promise<unknown> {
    const script = `return (async () => { return ${expression}; })()`;
    return this.command('POST', '/execute/sync', { script, args: [] });
  }

  /** Calls a function with the elements that the steps lead to, in the page. */
  async withFound<Result>(
    steps: readonly Step[],
    code: ((found: Element[], ...given: never[]) => Result) | string,
    ...given: readonly unknown[]
  ): Promise<Awaited<Result>> {
    const rest = given.map((one) => `, ${JSON.stringify(one) ?? 'undefined'}`).join('');
    const call = `(${code.toString()})(window.journeyQueries.find(${JSON.stringify(steps)})${rest})`;
    const script = `if (!window.journeyQueries) return { isBare: true };
      return (async () => ({ value: await ${call} }))()`;
    for (;;) {
      const told = (await this.command('POST', '/execute/sync', { script, args: [] })) as
        { isBare: true } | { value: Awaited<Result> };
      if ('value' in told) return told.value;
      if (!('isBare' in told)) return undefined as Awaited<Result>;
      await this.command('POST', '/execute/sync', { script: TOOLS, args: [] });
    }
  }

  evaluate = async (code: { toString(): string } | string, given?: unknown): Promise<never> =>
    (await this.run(callOf(code, given === undefined ? [] : [given]))) as never;

  goto = async (
    url: string,
    { waitUntil = 'load' }: { waitUntil?: string } = {},
  ): Promise<null> => {
    // WebDriver waits for a page that only turns to another place in itself, for ever.
    const here = String(await this.command('GET', '/url'));
    const isSamePage = here.split('#')[0] === url.split('#')[0] && url.includes('#');
    if (isSamePage) {
      await this.run(`void (location.href = ${JSON.stringify(url)})`);
    } else if (waitUntil === 'commit') {
      await this.run(`void setTimeout(() => (location.href = ${JSON.stringify(url)}))`);
      await this.#arrived(url);
    } else {
      await this.command('POST', '/url', { url });
    }
    if (!isSamePage) this.#medium = 'screen';
    return null;
  };

  async #arrived(url: string): Promise<void> {
    const until = Date.now() + LONGEST_NAVIGATION_MS;
    while (String(await this.command('GET', '/url')) !== url) {
      if (Date.now() > until) throw new Error(`${url} did not open`);
    }
  }

  reload = async (): Promise<null> => {
    await this.command('POST', '/refresh', {});
    this.#medium = 'screen';
    return null;
  };

  screenshot = async ({ fullPage = false }: { fullPage?: boolean } = {}): Promise<Buffer> => {
    if (!fullPage) return this.#picture();
    const [width, height, whole] = (await this.run(
      '[innerWidth, innerHeight, document.documentElement.scrollHeight]',
    )) as [number, number, number];
    await this.setViewportSize({ width, height: whole });
    const picture = await this.#picture();
    await this.setViewportSize({ width, height });
    return picture;
  };

  async #picture(): Promise<Buffer> {
    return Buffer.from(String(await this.command('GET', '/screenshot')), 'base64');
  }

  setViewportSize = async ({ width, height }: { width: number; height: number }): Promise<void> => {
    // What the window has beside the page is known once it has a size; the screen follows later.
    for (let look = 0; look < 40; look++) {
      const [w, h, outerW, outerH] = (await this.run(
        '[innerWidth, innerHeight, outerWidth, outerHeight]',
      )) as [number, number, number, number];
      if (w === width && h === height) return;
      if (look % 10 === 0) {
        const whole = { width: width + outerW - w, height: height + outerH - h };
        // In the middle, under the pointer.
        const x = Math.max(0, Math.round((SCREEN.width - whole.width) / 2));
        await this.command('POST', '/window/rect', { x, y: 0, ...whole });
      }
      await this.waitForTimeout(50);
    }
    const size = JSON.stringify(await this.run('[innerWidth, innerHeight]'));
    throw new Error(`The page is ${size} and not ${width} x ${height}.`);
  };

  emulateMedia = async ({ media }: { media?: 'print' | 'screen' | null } = {}): Promise<void> => {
    const wanted = media ?? this.#medium;
    if (wanted === this.#medium) return;
    this.#medium = wanted;
    await this.evaluate(swapPaperAndScreen);
  };

  waitForTimeout = (longest_ms: number): Promise<void> =>
    new Promise((settle) => setTimeout(settle, longest_ms));

  addInitScript = (script: () => void): Promise<void> => {
    this.#around.addFirstScript(callOf(script, []));
    return Promise.resolve();
  };

  close = async (): Promise<void> => {
    await this.command('DELETE', '/window');
    this.#turn.forget(this.#window);
    this.#around.closed();
  };

  get folder(): string {
    return this.#around.folder;
  }

  context = (): JourneyDevice => this.#around.device;
  waitForEvent = (_event: 'download'): Promise<JourneyDownload> => this.#around.nextDownload();

  locator = (css: string, options: { hasText?: string | RegExp } = {}): WebKitLocator =>
    new WebKitLocator(this, []).locator(css, options);
  getByRole = (role: Role, options?: RoleOptions): WebKitLocator =>
    new WebKitLocator(this, []).getByRole(role, options);
  getByText = (text: string | RegExp, options: { exact?: boolean } = {}): WebKitLocator =>
    new WebKitLocator(this, [{ by: 'text', text: sent(text, options.exact) }]);
  getByLabel = (text: string | RegExp, options: { exact?: boolean } = {}): WebKitLocator =>
    new WebKitLocator(this, [{ by: 'label', text: sent(text, options.exact) }]);

  readonly keyboard = {
    press: async (key: string): Promise<void> => {
      const value = KEYS[key] ?? key;
      const actions = ['keyDown', 'keyUp'].map((type) => ({ type, value }));
      await this.#act({ type: 'key', id: 'keys', actions });
    },
  };

  readonly mouse = {
    move: (x: number, y: number): Promise<void> => this.#point({ type: 'pointerMove', x, y }),
    down: (): Promise<void> => this.#point({ type: 'pointerDown', button: 0 }),
    up: (): Promise<void> => this.#point({ type: 'pointerUp', button: 0 }),
    click: (x: number, y: number): Promise<void> =>
      this.#point(
        { type: 'pointerMove', x, y },
        { type: 'pointerDown', button: 0 },
        { type: 'pointerUp', button: 0 },
      ),
    wheel: async (x: number, y: number): Promise<void> => {
      await this.run(`void scrollBy(${x}, ${y})`);
    },
  };

  async #point(
    ...moves: { type: string; x?: number; y?: number; button?: number }[]
  ): Promise<void> {
    const actions = moves.map((move) =>
      move.type === 'pointerMove'
        ? { ...move, x: Math.round(move.x ?? 0), y: Math.round(move.y ?? 0), origin: 'viewport' }
        : move,
    );
    await this.#act({
      type: 'pointer',
      id: 'mouse',
      parameters: { pointerType: 'mouse' },
      actions,
    });
  }

  async #act(source: object): Promise<void> {
    await this.command('POST', '/actions', { actions: [source] });
  }
}

/** Commands go to the window in front; this brings the right one there, one command at a time. */
export class Turns {
  readonly #session: DriverSession;
  #inFront: string;
  #last: Promise<unknown> = Promise.resolve();

  constructor(session: DriverSession, inFront: string) {
    this.#session = session;
    this.#inFront = inFront;
  }

  take<Result>(window: string, work: () => Promise<Result>): Promise<Result> {
    const next = this.#last.then(async () => {
      if (this.#inFront !== window) {
        await this.#session.command('POST', '/window', { handle: window });
        this.#inFront = window;
      }
      return work();
    });
    this.#last = next.catch(() => undefined);
    return next;
  }

  forget(window: string): void {
    if (this.#inFront === window) this.#inFront = '';
  }
}

/** True for what a driver says of a page that is just being left for another. */
export const isPassing = (problem: unknown): boolean =>
  problem instanceof DriverError &&
  /javascript error|no such window|stale element|no such frame|unknown error/.test(problem.code) &&
  !problem.message.includes('journey:');
