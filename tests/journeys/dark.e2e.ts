import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, LAPTOP, launch, type OpenApp, PHONE } from './in-engine.ts';
import { litShare, notRed, readPng } from './png.ts';
import { bringIn, ranking } from './steps.ts';

const afternoon = '2026-08-20T15:00:00-04:00';
const night = '2026-08-20T22:30:00-04:00';

let app: OpenApp;
let nest = '';

/**
 * Fails with the first pixels that give off green or blue light, on any picture until something is
 * drawn; a page that has just been turned to may still be black.
 */
async function onlyRed(page: JourneyPage): Promise<void> {
  let lit = 0;
  for (let look = 0; look < 30 && lit <= 0.002; look++) {
    if (look > 0) await page.waitForTimeout(100);
    lit = litShare(await onlyRedOrBlack(page));
  }
  expect(lit).toBeGreaterThan(0.002);
}

async function onlyRedOrBlack(page: JourneyPage) {
  const picture = readPng(await page.screenshot());
  expect(notRed(picture)).toEqual([]);
  return picture;
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
  for (let look = 0; look < 5; look++) await onlyRedOrBlack(page);
  await page.locator('.ranking li').first().waitFor();
  await onlyRed(page);
  const roots = await page.evaluate(() => (window as unknown as { seen: string[] }).seen);
  expect(roots.length).toBeGreaterThan(0);
  expect(new Set(roots)).toEqual(new Set(['dark']));
  await page.close();
});

describe.each([
  { size: 'phone', viewport: PHONE },
  { size: 'laptop', viewport: LAPTOP },
])('no pixel gives off green or blue light on a $size', ({ viewport }) => {
  beforeAll(async () => {
    await app.page.setViewportSize(viewport);
  });

  test('Tonight, scrolled, with a why open and a control in focus', async () => {
    await at('#/tonight', '.ranking li');
    await onlyRed(app.page);
    await app.page.getByRole('button', { name: 'Why' }).first().click();
    await app.page.locator('.why').first().waitFor();
    await onlyRed(app.page);
    await app.page.keyboard.press('Tab');
    await onlyRed(app.page);
    await app.page.mouse.wheel(0, 1500);
    await onlyRed(app.page);
  });

  test('Tonight with all of its text selected', async () => {
    await app.page.evaluate(() => {
      getSelection()?.selectAllChildren(document.body);
    });
    await onlyRed(app.page);
    await app.page.evaluate(() => {
      getSelection()?.removeAllRanges();
    });
  });

  test('Nest', async () => {
    await at(`#/nest/${nest}`, 'h1');
    await app.page.getByText('Chance by night').first().waitFor();
    await onlyRed(app.page);
    await app.page.mouse.wheel(0, 1200);
    await onlyRed(app.page);
  });

  test('Note', async () => {
    await at('#/note', 'h1');
    await app.page.getByRole('heading', { name: 'Note' }).waitFor();
    await onlyRed(app.page);
    await app.page.mouse.wheel(0, 1200);
    await onlyRed(app.page);
  });

  test.each([
    '#/programme',
    '#/programme/people',
    '#/programme/import',
    '#/programme/backup',
    '#/programme/finished',
    '#/programme/defaults',
    '#/programme/cautions',
    '#/season',
    '#/ready',
    '#/help',
    '#/programme/devices',
    '#/welcome',
    '#/register',
    '#/boil',
    '#/orientation',
    '#/inventory',
  ])('%s', async (hash) => {
    await at(hash, 'main');
    await onlyRed(app.page);
  });
});

test.each([
  '#/tonight',
  '#/note',
  '#/programme',
  '#/programme/people',
  '#/programme/import',
  '#/programme/backup',
  '#/programme/finished',
  '#/programme/defaults',
  '#/season',
  '#/ready',
  '#/help',
  '#/programme/devices',
  '#/register',
  '#/boil',
  '#/orientation',
  '#/inventory',
  '#/welcome',
])('nothing on %s opens a keyboard, a picker or a prompt', async (hash) => {
  await at(hash, 'main');
  expect(await app.page.locator('input, select, textarea, [contenteditable]').count()).toBe(0);
});

test.each(['#/tonight', '#/note', '#/programme'])(
  'every control on %s is large enough for a sandy thumb',
  async (hash) => {
    await app.page.setViewportSize(PHONE);
    await at(hash, 'main');
    const small = await app.page.locator('main button:visible, nav a:visible').evaluateAll((list) =>
      list
        .map((one) => ({ name: one.textContent.trim(), box: one.getBoundingClientRect() }))
        .filter(({ box }) => box.height < 55.5 || box.width < 40)
        .map(({ name, box }) => `${name} ${box.width.toFixed(0)}x${box.height.toFixed(0)}`),
    );
    expect(small).toEqual([]);
  },
);

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
