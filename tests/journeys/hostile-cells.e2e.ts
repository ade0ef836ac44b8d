import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { colouredFont } from '../builders/coloured-font.ts';
import { hostileFiles, hostileNests, pictographs } from '../builders/hostile-season.ts';
import { launch, type OpenApp, PHONE } from './in-engine.ts';
import { places, placesOfNest } from './places.ts';
import { litShare, notRed, readPng } from './png.ts';
import { redAlone } from './red-alone.ts';
import { bringIn } from './steps.ts';

const evening = '2026-07-20T17:00:00-04:00';
const night = '2026-07-20T22:30:00-04:00';

/** Names that an object of the language has already, as if they were nests. */
const placesOfNames = ['#/nest/__proto__', '#/nest/constructor/record', '#/boil/__proto__'];

const [markup = '', turtles = ''] = ['<img', pictographs].map(
  (start) => hostileNests.find((nest) => nest.startsWith(start)) ?? '',
);

/** Every part of every screen, those of a nest with each of these. */
const placesWith = (...nests: readonly string[]): readonly string[] => [
  ...places.filter((place) => place !== '#/welcome'),
  ...nests.flatMap((nest) =>
    placesOfNest.map((place) => place.replace('NEST', encodeURIComponent(nest))),
  ),
  ...placesOfNames,
];

/** A phone's screen drawn out, so that one picture shows as much of a long page as matters. */
const TALLEST_PX = 3000;

/** Share of a dark picture that is lit at most: ink on black, and no red sheet over all of it. */
const MOST_LIT = 0.5;

let app: OpenApp;
beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: evening, viewport: PHONE });
  const files = Object.entries(hostileFiles()).map(([name, text]) => ({
    name,
    mimeType: name.endsWith('.json') ? 'application/json' : 'text/csv',
    buffer: Buffer.from(text),
  }));
  await bringIn(app.page, app.address, files);
  // Whoever is known is asked no more who they are.
  await app.page.goto(`${app.address}#/roster/mine`);
  await app.page.getByRole('button', { name: pictographs }).click();
});
afterAll(async () => {
  await app.close();
});

/** Goes to a place and opens what can be unfolded there. */
async function open(place: string): Promise<void> {
  const { page, address } = app;
  await page.goto(`${address}${place}`);
  await page.locator('h1, h2').first().waitFor();
  await page.evaluate(() => {
    for (const one of document.querySelectorAll('details')) one.open = true;
    document.querySelector<HTMLElement>('main [aria-expanded=false]')?.click();
  });
}

/** Fails where a text of the record was more than text, or is wider than the screen. */
async function staysText(place: string): Promise<void> {
  const found = await app.page.evaluate(() => ({
    ran: document.documentElement.dataset['ran'] ?? null,
    made: document.querySelectorAll(
      'img[src="x"], body script, iframe, a[href^="javascript:"], [onerror]',
    ).length,
    elsewhere: performance
      .getEntriesByType('resource')
      .filter(({ name }) => new URL(name).origin !== location.origin).length,
    tooWide_px: document.documentElement.scrollWidth - document.documentElement.clientWidth,
  }));
  expect({ place, ...found }).toEqual({ place, ran: null, made: 0, elsewhere: 0, tooWide_px: 0 });
}

test('cells full of markup, scripts and formulas stay text on every screen of a phone', async () => {
  for (const place of placesWith(markup)) {
    await open(place);
    await staysText(place);
  }
  await app.page.goto(`${app.address}#/tonight`);
  await app.page.getByText('<img src=x onerror=').first().waitFor();
});

describe('in the dark', () => {
  beforeAll(async () => {
    const { page } = app;
    await app.context.clock.setSystemTime(night);
    await page.goto(`${app.address}#/tonight`);
    await page.reload();
    await page.locator('html.dark .ranking li').first().waitFor();
    // As the fonts of a system come in, where the app's own have no letter for a character.
    await page.evaluate(
      async (font) => {
        const bytes = Uint8Array.from(atob(font), (letter) => letter.charCodeAt(0));
        for (const name of ['Segoe UI', 'Charter']) {
          document.fonts.add(await new FontFace(name, bytes).load());
        }
      },
      Buffer.from(colouredFont(pictographs)).toString('base64'),
    );
  });

  test('a pictograph is seen, and in red, which it would not be without its glass', async () => {
    const { page } = app;
    await page.goto(`${app.address}#/nest/${encodeURIComponent(turtles)}`);
    const name = page.locator('h1', { hasText: turtles });
    await name.waitFor();
    await redAlone(page);
    expect(litShare(readPng(await name.screenshot()))).toBeGreaterThan(0.05);
    await page.evaluate(() => {
      for (const one of document.querySelectorAll('[data-glass]'))
        one.removeAttribute('data-glass');
    });
    expect(notRed(readPng(await page.screenshot()))).not.toEqual([]);
  });

  /** Fails where anything but red is lit, or a keyboard could open, however far one scrolls. */
  async function staysDark(place: string): Promise<void> {
    const { page } = app;
    const typing = page.locator('input, select, textarea, [contenteditable]');
    expect(await typing.count(), place).toBe(0);
    const height = await page.evaluate(() => document.documentElement.scrollHeight);
    await page.setViewportSize({ ...PHONE, height: Math.min(height, TALLEST_PX) });
    expect(litShare(await redAlone(page)), place).toBeLessThan(MOST_LIT);
    await page.setViewportSize(PHONE);
  }

  test('the same cells are red on black on every screen, and none opens a keyboard', async () => {
    for (const place of placesWith(turtles)) {
      await open(place);
      await staysText(place);
      await staysDark(place);
    }
  });

  test('so is a plan of who sits at such a nest, with the card of a post', async () => {
    const { page } = app;
    await page.goto(`${app.address}#/roster`);
    await page.getByRole('button', { name: 'Make a plan' }).click();
    await page.getByRole('button', { name: 'Plan again' }).waitFor({ timeout: 90_000 });
    await page.locator('button.sat').first().click();
    await page.getByText('Who sits here').waitFor();
    await staysText('plan');
    await staysDark('plan');
  });
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
