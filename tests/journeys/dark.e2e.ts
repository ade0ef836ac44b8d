import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, LAPTOP, launch, type OpenApp, PHONE } from './in-engine.ts';
import { type Luminance, luminance } from './png.ts';
import { places, placesNowhere, placesOfNest } from './places.ts';
import { redAlone, redOrBlack } from './red-alone.ts';
import { bringIn, ranking } from './steps.ts';

const afternoon = '2026-08-20T15:00:00-04:00';
const night = '2026-08-20T22:30:00-04:00';

let app: OpenApp;
let nest = '';

/** What each picture gave off, by what it shows. */
const light = new Map<string, Luminance>();

async function onlyRed(shows: string, page: JourneyPage = app.page): Promise<void> {
  const picture = await redAlone(page);
  light.set(`${shows}, ${picture.width} px`, luminance(picture));
}

async function at(hash: string, ready: string): Promise<void> {
  await app.page.goto(`${app.address}${hash}`);
  await app.page.locator(ready).first().waitFor();
}

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: afternoon });
  await bringIn(app.page, app.address, inventedFiles(60, 11, afternoon));
  nest = (await ranking(app.page))[0]?.nest ?? '';
  // Night falls while the app is shut.
  await app.context.clock.setSystemTime(night);
  await app.page.reload();
  await app.page.locator('.ranking li').first().waitFor();
});

afterAll(async () => {
  await app.close();
  const percent = (share: number): string => `${(share * 100).toFixed(2)} %`;
  const all = [...light].sort(([, one], [, other]) => other.mean - one.mean);
  const means = all.map(([, { mean }]) => mean);
  const peak = Math.max(...all.map(([, one]) => one.peak));
  console.warn(
    `Light of ${all.length} dark pictures, of a white screen's: ` +
      `mean ${percent(means.reduce((sum, mean) => sum + mean, 0) / all.length)}, ` +
      `brightest picture ${percent(means[0] ?? 0)} (${all[0]?.[0] ?? 'none'}), ` +
      `brightest pixel ${percent(peak)}.`,
  );
});

test('after sunset the dark screen shows by itself', async () => {
  expect(await app.page.evaluate(() => document.documentElement.className)).toBe('dark');
});

test('it is black from the first paint on, and never flashes while the app starts', async () => {
  const page = await app.secondTab();
  await page.addInitScript(() => {
    const seen: string[] = [];
    Object.assign(window, { seen });
    new MutationObserver(() => seen.push(document.documentElement.className)).observe(document, {
      attributes: true,
      attributeFilter: ['class'],
      subtree: true,
    });
  });
  await page.goto(app.address, { waitUntil: 'commit' });
  for (let look = 0; look < 5; look++) await redOrBlack(page);
  await page.locator('.ranking li').first().waitFor();
  await onlyRed('First screen', page);
  const roots = await page.evaluate(() => (window as unknown as { seen: string[] }).seen);
  expect(roots.length).toBeGreaterThan(0);
  expect(new Set(roots)).toEqual(new Set(['dark']));
  await page.close();
});

/** Every place of the app; `NEST` stands for one that is in the season. */
const allPlaces = [...places, ...placesOfNest, ...placesNowhere];

const placed = (place: string): string => place.replace('NEST', encodeURIComponent(nest));

/** Where a wide screen shows more, or otherwise, than a narrow one. */
const wideOnes = [
  '#/tonight',
  '#/nest/NEST/record',
  '#/listen',
  '#/roster',
  '#/roster/crews',
  '#/season',
  '#/programme/defaults',
];

describe.each([
  { size: 'phone', viewport: PHONE, shown: allPlaces },
  { size: 'laptop', viewport: LAPTOP, shown: wideOnes },
])('no pixel gives off green or blue light on a $size', ({ viewport, shown }) => {
  beforeAll(async () => {
    await app.page.setViewportSize(viewport);
  });

  test('Tonight, scrolled, with a why open and one control after another in focus', async () => {
    const { page } = app;
    await at('#/tonight', '.ranking li');
    await onlyRed('Tonight');
    await page.getByRole('button', { name: 'Why' }).first().click();
    await page.locator('.why').first().waitFor();
    await onlyRed('Why');
    for (let stop = 0; stop < 3; stop++) {
      await page.keyboard.press('Tab');
      await onlyRed('Focus');
    }
    expect(await page.locator('main :focus, header :focus, nav :focus').count()).toBe(1);
    await page.mouse.wheel(0, 1500);
    await onlyRed('Tonight, scrolled');
  });

  test('Tonight with all of its text selected', async () => {
    await app.page.evaluate(() => {
      getSelection()?.selectAllChildren(document.body);
    });
    await onlyRed('Selection');
    await app.page.evaluate(() => {
      getSelection()?.removeAllRanges();
    });
  });

  test('the chart of a nest, and below it', async () => {
    await at(placed('#/nest/NEST'), 'h1');
    await app.page.getByText('Chance by night').first().waitFor();
    await onlyRed('Chart');
    await app.page.mouse.wheel(0, 1200);
    await onlyRed('Nest, scrolled');
  });

  test('a note under way, and the question before a loss is noted', async () => {
    const { page } = app;
    await at(placed('#/note/NEST'), 'h1');
    const nobody = page.getByRole('button', { name: /without (a )?name/i });
    const more = page.getByText('Watch, weather, tracks, storm …').first();
    await nobody.or(more).first().waitFor();
    if (await nobody.isVisible()) await nobody.click();
    await onlyRed('Note under way');
    if ((await page.locator('details[open]').count()) === 0) await more.click();
    await page.getByRole('button', { name: /^washout/ }).click();
    await page.getByRole('alertdialog').waitFor();
    await onlyRed('Question');
    await page.getByRole('alertdialog').getByRole('button', { name: 'No' }).click();
  });

  test.each(shown)(
    '%s, and nothing on it opens a keyboard, a picker or a prompt',
    async (place) => {
      await at(placed(place), 'main');
      await onlyRed(place);
      const typing = 'input, select, textarea, [contenteditable]';
      await expect.poll(() => app.page.locator(typing).count()).toBe(0);
    },
  );
});

test('the bars of the browser and the splash of the installed app are black', async () => {
  const told = await app.page.evaluate(async () => {
    const address = document.querySelector<HTMLLinkElement>('link[rel=manifest]')?.href ?? '';
    const manifest = (await (await fetch(address)).json()) as Record<string, string>;
    return [
      document.querySelector<HTMLMetaElement>('meta[name=theme-color]')?.content,
      manifest.theme_color,
      manifest.background_color,
    ];
  });
  expect(told).toEqual(['#000000', '#000000', '#000000']);
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
