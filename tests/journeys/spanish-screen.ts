import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { PHONE } from './launch.ts';
import type { SaidIn } from './said-in.ts';

/** Words that no Spanish text holds, but nearly every English one. */
const ENGLISH =
  /\b(the|and|of|is|are|was|with|from|this|that|to|for|by|at|on|not|nests?|nights?|tonight|since|left|Jan|Apr|Aug|Dec|Mon|Tue|Wed|Thu|Fri|Sat)\b/i;

/** A point that stands where Spanish has a comma, and not between thousands. */
const DECIMAL_POINT = /\d\.\d(?!\d\d(?!\d))/;

/** The same in every language: names of files, sources. */
const FOR_ALL = /\b[\w-]+\.(csv|json)\b|\bdoi \S+/g;

/** What somebody wrote into the invented seasons: it stays as it was written. */
const WRITTEN = new Set(['not found', 'south', 'Invented Bay']);

/** All that stands on the page, open or shut, and what is read out. */
export function textsOf(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const texts: string[] = [];
    while (walker.nextNode() !== null) {
      const { parentElement, textContent } = walker.currentNode;
      if (parentElement?.closest('script, style, noscript, code') === null) {
        texts.push(textContent ?? '');
      }
    }
    for (const name of ['aria-label', 'title', 'placeholder', 'alt']) {
      for (const one of document.querySelectorAll(`[${name}]`)) {
        texts.push(one.getAttribute(name) ?? '');
      }
    }
    return texts.map((text) => text.replace(/\s+/g, ' ').trim()).filter((text) => text !== '');
  });
}

/** How much wider than the window the page is, CSS pixels. */
const overhang_px = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

/** The texts of the screens that were looked at, each with where it stood last. */
export class SpanishScreens {
  readonly #seen = new Map<string, string>();

  /** Notes what stands on the page. Fails where it hangs over the edge of a phone, narrow or usual. */
  async look(page: Page, where: string): Promise<void> {
    for (const text of await textsOf(page)) this.#seen.set(text, `${where}: ${text}`);
    for (const width of [320, PHONE.width]) {
      await page.setViewportSize({ ...PHONE, width });
      await expect
        .poll(() => overhang_px(page), { message: `${where}, ${width} px` })
        .toBeLessThanOrEqual(1);
    }
  }

  get texts(): readonly string[] {
    return [...this.#seen.keys()].filter((text) => !WRITTEN.has(text));
  }

  /** What is in English, or has a point where Spanish has a comma, and where. */
  faults({ notSaidSo }: SaidIn): readonly string[] {
    const { texts } = this;
    const wrong = [
      ...notSaidSo(texts),
      ...texts.filter((text) => ENGLISH.test(text.replace(FOR_ALL, ''))),
      ...texts.filter((text) => DECIMAL_POINT.test(text.replace(FOR_ALL, ''))),
    ];
    return wrong.map((text) => this.#seen.get(text) ?? text);
  }
}
