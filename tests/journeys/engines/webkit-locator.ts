import { mkdir, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { JourneyLocator, LocatorFilter, Role, RoleOptions } from './journey-page.ts';
import { cropped, readPng, writePng } from '../png.ts';
import type { Queries, SentText, Step } from './queries.ts';
import { isPassing, type WebKitPage } from './webkit-page.ts';

const LONGEST_WAIT_MS = 60_000;
const LOOK_EVERY_MS = 40;
const LOOKS_FOR_A_CLICK = 25;

/** The name under which WebDriver sends an element (W3C, section 12.1). */
const ELEMENT = 'element-6066-11e4-a52e-4f735466cecf';

interface Timeout {
  readonly timeout?: number;
}

/** Payload or payloads of a file input. */
interface Payload {
  readonly name: string;
  readonly buffer: Buffer;
}

/** A text or pattern as it is sent into the page. */
export function sent(text: string | RegExp, isExact = false): SentText {
  if (typeof text !== 'string') return { kind: 'pattern', source: text.source, flags: text.flags };
  return { kind: isExact ? 'exact' : 'part', text };
}

/** Elements of a page of WebKitGTK, found anew at each use, as Playwright's locators are. */
export class WebKitLocator implements JourneyLocator {
  readonly #page: WebKitPage;
  readonly #steps: readonly Step[];

  constructor(page: WebKitPage, steps: readonly Step[]) {
    this.#page = page;
    this.#steps = steps;
  }

  #then(...steps: readonly Step[]): WebKitLocator {
    return new WebKitLocator(this.#page, [...this.#steps, ...steps]);
  }

  filter = ({ hasText }: LocatorFilter): WebKitLocator =>
    hasText === undefined ? this : this.#then({ by: 'holding', text: sent(hasText) });
  first = (): WebKitLocator => this.nth(0);
  last = (): WebKitLocator => this.nth(-1);
  nth = (index: number): WebKitLocator => this.#then({ by: 'index', index });
  or = (other: JourneyLocator): WebKitLocator => {
    if (!(other instanceof WebKitLocator)) throw new Error('Both must be of one page.');
    return this.#then({ by: 'or', other: other.#steps });
  };
  locator = (css: string, options: LocatorFilter = {}): WebKitLocator =>
    this.#then({ by: 'css', css }).filter(options);
  getByRole = (role: Role, { name, exact }: RoleOptions = {}): WebKitLocator =>
    this.#then({ by: 'role', role, name: name === undefined ? null : sent(name, exact) });
  getByText = (text: string | RegExp, options: { exact?: boolean } = {}): WebKitLocator =>
    this.#then({ by: 'text', text: sent(text, options.exact) });
  getByLabel = (text: string | RegExp, options: { exact?: boolean } = {}): WebKitLocator =>
    this.#then({ by: 'label', text: sent(text, options.exact) });

  /** Looks again until the answer is not null; the page may be changing, or being left, meanwhile. */
  async #until<Result>(
    look: () => Promise<Result | null>,
    what: string,
    timeout = LONGEST_WAIT_MS,
  ): Promise<Result> {
    const until = Date.now() + timeout;
    let last: unknown = null;
    for (;;) {
      try {
        const found = await look();
        if (found !== null) return found;
      } catch (problem) {
        if (!isPassing(problem)) throw problem;
        last = problem;
      }
      if (Date.now() > until) {
        const why = last instanceof Error ? ` (${last.message})` : '';
        throw new Error(`In ${timeout} ms not ${what}: ${JSON.stringify(this.#steps)}${why}`);
      }
      await this.#page.waitForTimeout(LOOK_EVERY_MS);
    }
  }

  /** Asks the one element for something once it is there; more than one is a mistake. */
  async #ofOne<Result>(
    code: (one: Element, given: unknown) => Result,
    given?: unknown,
    timeout?: number,
  ): Promise<Awaited<Result>> {
    const call = `(found, given) => {
      if (found.length > 1) throw new Error('journey: ' + found.length + ' elements instead of one');
      if (found.length === 0) return { none: true };
      return Promise.resolve((${code.toString()})(found[0], given)).then((value) => ({ value }));
    }`;
    const { value } = await this.#until(
      async () => {
        const told = await this.#page.withFound<{ none: true } | { value: Awaited<Result> }>(
          this.#steps,
          call,
          given,
        );
        return 'none' in told ? null : told;
      },
      'there',
      timeout,
    );
    return value;
  }

  count = (): Promise<number> =>
    this.#until(() => this.#page.withFound(this.#steps, (found) => found.length), 'countable');
  allTextContents = (): Promise<string[]> =>
    this.#until(
      () => this.#page.withFound(this.#steps, (found) => found.map((one) => one.textContent)),
      'readable',
    );
  textContent = (options: Timeout = {}): Promise<string> =>
    this.#ofOne((one) => one.textContent, undefined, options.timeout);
  innerText = (): Promise<string> => this.#ofOne((one) => (one as HTMLElement).innerText);
  inputValue = (): Promise<string> => this.#ofOne((one) => (one as HTMLInputElement).value);
  getAttribute = (name: string): Promise<string | null> =>
    this.#ofOne((one, wanted) => one.getAttribute(wanted as string), name);
  isDisabled = (): Promise<boolean> => this.#ofOne((one) => one.matches(':disabled'));
  boundingBox = (): Promise<{ x: number; y: number; width: number; height: number } | null> =>
    this.#ofOne((one) => {
      const { x, y, width, height } = one.getBoundingClientRect();
      return { x, y, width, height };
    });
  scrollIntoViewIfNeeded = async (): Promise<void> => {
    await this.#ofOne((one) => {
      const { top, bottom } = one.getBoundingClientRect();
      if (top < 0 || bottom > innerHeight) one.scrollIntoView({ block: 'center' });
    });
  };
  isVisible = (): Promise<boolean> =>
    this.#until(
      () =>
        this.#page.withFound(this.#steps, (found) => {
          const { journeyQueries } = window as unknown as { journeyQueries: Queries };
          return found.length > 0 && found.every(journeyQueries.isVisible);
        }),
      'readable',
    );

  evaluate = async (code: { toString(): string }, given?: unknown): Promise<never> =>
    (await this.#ofOne(code as (one: Element, given: unknown) => unknown, given)) as never;
  evaluateAll = async (code: { toString(): string }, given?: unknown): Promise<never> =>
    (await this.#page.withFound(
      this.#steps,
      code as (found: Element[]) => unknown,
      given,
    )) as never;

  waitFor = async ({
    state = 'visible',
    timeout,
  }: Timeout & { state?: 'attached' | 'detached' | 'hidden' | 'visible' } = {}): Promise<void> => {
    await this.#until(
      async () => {
        const [count, visible] = await this.#page.withFound(this.#steps, (found) => {
          const { journeyQueries } = window as unknown as { journeyQueries: Queries };
          return [found.length, found.filter(journeyQueries.isVisible).length] as [number, number];
        });
        switch (state) {
          case 'attached':
            return count > 0 || null;
          case 'detached':
            return count === 0 || null;
          case 'hidden':
            return visible === 0 || null;
          case 'visible':
            if (count > 1)
              throw new Error(`${count} instead of one: ${JSON.stringify(this.#steps)}`);
            return visible === 1 || null;
        }
      },
      state,
      timeout,
    );
  };

  /** The middle of the element, once it is seen, enabled, at rest and covered by nothing. */
  async #target(timeout?: number): Promise<{ x: number; y: number }> {
    let before = '';
    return this.#until(
      async () => {
        const spot = await this.#page.withFound(this.#steps, (found) => {
          const { journeyQueries } = window as unknown as { journeyQueries: Queries };
          const [one] = found;
          if (found.length > 1) {
            throw new Error(`journey: ${found.length} elements instead of one`);
          }
          if (one === undefined || !journeyQueries.isVisible(one) || one.matches(':disabled')) {
            return null;
          }
          const box = one.getBoundingClientRect();
          const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
          const hit = document.elementFromPoint(x, y);
          const isOpen = hit !== null && (one.contains(hit) || hit.contains(one));
          if (!isOpen) {
            one.scrollIntoView({ block: 'center', inline: 'center' });
            return null;
          }
          Object.assign(window, { journeyClicked: false });
          const see = ({ target }: Event): void => {
            // What has moved meanwhile is missed: the click lands on something else.
            if (!(target instanceof Node) || !one.contains(target)) return;
            Object.assign(window, { journeyClicked: true });
            removeEventListener('click', see, { capture: true });
          };
          addEventListener('click', see, { capture: true });
          return { x, y };
        });
        const now = JSON.stringify(spot);
        const isAtRest = now === before;
        before = now;
        return isAtRest ? spot : null;
      },
      'to be pointed at',
      timeout,
    );
  }

  /** A machine that is busy may lose a click on its way to the page: it is made again then. */
  click = async (options: Timeout = {}): Promise<void> => {
    for (let time = 0; time < 3; time++) {
      const { x, y } = await this.#target(options.timeout);
      await this.#page.mouse.click(x, y);
      if (await this.#hasArrived()) return;
    }
    throw new Error(`No click arrived at ${JSON.stringify(this.#steps)}.`);
  };

  async #hasArrived(): Promise<boolean> {
    for (let look = 0; look < LOOKS_FOR_A_CLICK; look++) {
      // A page that was left for another by the click knows nothing of it.
      if ((await this.#page.run('window.journeyClicked !== false')) === true) return true;
      await this.#page.waitForTimeout(LOOK_EVERY_MS);
    }
    return false;
  }

  hover = async (): Promise<void> => {
    const { x, y } = await this.#target();
    await this.#page.mouse.move(x, y);
  };

  fill = async (value: string): Promise<void> => {
    await this.#ofOne((one, text) => {
      const field = one as HTMLInputElement | HTMLTextAreaElement;
      field.focus();
      const kind = field instanceof HTMLInputElement ? HTMLInputElement : HTMLTextAreaElement;
      Object.getOwnPropertyDescriptor(kind.prototype, 'value')?.set?.call(field, text);
      field.dispatchEvent(new InputEvent('input', { bubbles: true }));
      field.dispatchEvent(new Event('change', { bubbles: true }));
    }, value);
  };

  selectOption = (wanted: unknown): Promise<string[]> =>
    this.#ofOne((one, value) => {
      const select = one as HTMLSelectElement;
      const option = [...select.options].find(
        (each) => each.value === value || each.label === value,
      );
      if (option === undefined) throw new Error(`journey: no option ${String(value)}`);
      select.value = option.value;
      select.dispatchEvent(new InputEvent('input', { bubbles: true }));
      select.dispatchEvent(new Event('change', { bubbles: true }));
      return [option.value];
    }, wanted);

  async #element(): Promise<string> {
    const found = await this.#ofOne((one) => one);
    return (found as unknown as Record<string, string>)[ELEMENT] ?? '';
  }

  setInputFiles = async (files: unknown): Promise<void> => {
    const payloads = (Array.isArray(files) ? files : [files]) as readonly Payload[];
    const folder = join(this.#page.folder, String(process.hrtime.bigint()));
    await mkdir(folder);
    const paths = payloads.map(({ name }) => join(folder, basename(name)));
    await Promise.all(payloads.map(({ buffer }, index) => writeFile(paths[index] ?? '', buffer)));
    const element = await this.#element();
    await this.#page.command('POST', `/element/${element}/value`, { text: paths.join('\n') });
  };

  /** Cut out of a picture of the page: the driver's own picture of a drawing alone is black. */
  screenshot = async (): Promise<Buffer> => {
    await this.scrollIntoViewIfNeeded();
    const box = await this.#ofOne((one) => {
      const { left, top, right, bottom } = one.getBoundingClientRect();
      const [x, y] = [Math.max(0, Math.floor(left)), Math.max(0, Math.floor(top))];
      const width = Math.min(innerWidth, Math.ceil(right)) - x;
      return { x, y, width, height: Math.min(innerHeight, Math.ceil(bottom)) - y };
    });
    return Buffer.from(writePng(cropped(readPng(await this.#page.screenshot()), box)));
  };
}
