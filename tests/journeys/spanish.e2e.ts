import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Language } from '../../src/words/languages.ts';
import { launch, type Launched, PHONE } from './launch.ts';
import { places, placesNowhere, placesOfNest } from './places.ts';
import { saidIn } from './said-in.ts';
import { note, openInvented, ranking } from './steps.ts';

const { say, notSaidSo } = saidIn('es');

/** Words that no Spanish text holds, but nearly every English one. */
const ENGLISH =
  /\b(the|and|of|is|are|was|with|from|this|that|to|for|by|at|on|not|nests?|nights?|tonight|since|left|Jan|Apr|Aug|Dec|Mon|Tue|Wed|Thu|Fri|Sat)\b/i;

/** A point that stands where Spanish has a comma, and not between thousands. */
const DECIMAL_POINT = /\d\.\d(?!\d\d(?!\d))/;

/** The same in every language: names of files, sources, positions. */
const FOR_ALL = /\b[\w-]+\.(csv|json)\b|\bdoi \S+|-?\d+\.\d{5}\b/g;

/** What somebody wrote into the invented season: it stays as it was written. */
const WRITTEN = new Set(['not found']);

let app: Launched;
let page: Page;
let nest = '';

beforeAll(async () => {
  app = await launch({
    colorScheme: 'light',
    startsAt: '2026-08-20T15:00:00-04:00',
    locale: 'es-MX',
  });
  ({ page } = app);
  await openInvented(page, app.address, say);
  nest = (await ranking(page))[0]?.nest ?? '';
});

afterAll(async () => {
  expect(app.consoleErrors).toEqual([]);
  await app.close();
});

async function open(hash: string): Promise<void> {
  await page.goto(`${app.address}${hash}`);
  await page.locator('h1').first().waitFor();
  for (const wait of ['One moment …', 'Learning from the record …']) {
    await page.getByText(say(wait)).waitFor({ state: 'detached' });
  }
  await page.locator('[aria-busy=true]').first().waitFor({ state: 'detached' });
}

/** All that stands on the page, open or shut, and what is read out. */
function textsOf(): Promise<readonly string[]> {
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
const overhang_px = (): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

const language = (): Promise<string> => page.evaluate(() => document.documentElement.lang);

/** Chooses a language by its own name, and waits until the page has been loaded anew in it. */
async function change(to: Language, name: string): Promise<void> {
  await open('#/programme');
  await page.getByRole('button', { name, exact: true }).click();
  await page.waitForFunction(
    (tag) => document.documentElement.lang === tag && document.querySelector('h1') !== null,
    to,
  );
}

/** Whether what was noted at the nest stands there, in the words of the language. */
async function sees(noted: string): Promise<void> {
  await page.goto(`${app.address}#/nest/${nest}`);
  await page.getByText(noted).first().waitFor();
}

test('a phone whose system is Spanish opens the app in Spanish', async () => {
  expect(await language()).toBe('es');
  expect(await page.locator('h1').first().textContent()).toMatch(/^\p{Ll}+ \d+ de \p{Ll}+$/u);
});

test('a note is made in the dark and stands with its nest', async () => {
  await page.getByRole('button', { name: say('Dark screen') }).click();
  await note(page, nest, 'depression', 'steady', say);
  expect(await page.evaluate(() => document.documentElement.className)).toBe('dark');
  expect(notSaidSo(await textsOf())).toEqual([]);
  await page.getByRole('button', { name: say('Day screen') }).click();
  await open(`#/nest/${nest}`);
  await page.getByText('depresión · constante').first().waitFor();
});

test('nothing on any screen is in English, and nothing hangs over the edge', async () => {
  const seen = new Map<string, string>();
  for (const place of [...places, ...placesOfNest, ...placesNowhere]) {
    await open(place.replace('NEST', encodeURIComponent(nest)));
    for (const text of await textsOf()) seen.set(text, `${place}: ${text}`);
    for (const width of [320, PHONE.width]) {
      await page.setViewportSize({ ...PHONE, width });
      await expect.poll(overhang_px, { message: `${place}, ${width} px` }).toBeLessThanOrEqual(1);
    }
  }
  expect(seen.size).toBeGreaterThan(800);
  const texts = [...seen.keys()].filter((text) => !WRITTEN.has(text));
  const wrong = [
    ...notSaidSo(texts),
    ...texts.filter((text) => ENGLISH.test(text.replace(FOR_ALL, ''))),
    ...texts.filter((text) => DECIMAL_POINT.test(text.replace(FOR_ALL, ''))),
  ];
  expect(wrong.map((text) => seen.get(text))).toEqual([]);
  expect(texts.some((text) => /\d,\d/.test(text))).toBe(true);
});

test('English and Spanish again keep what was noted', async () => {
  await change('en', 'English');
  await sees('depression · steady');
  await change('es', 'Español');
  await sees('depresión · constante');
});
