import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, LAPTOP, launch, type OpenApp } from './in-engine.ts';
import { bringIn } from './steps.ts';

// The season is over: an afternoon in autumn.
const now = '2026-10-30T13:00:00-04:00';
/** Width between margins of 14 mm at 96 dots an inch: of A4 (210 mm) and of Letter (216 mm). */
const papers = [
  { paper: 'A4', format: 'A4', width_px: 688 },
  { paper: 'Letter', format: 'Letter', width_px: 710 },
] as const;

let app: OpenApp;

/** How many finished seasons are listed. */
const kept = (page: JourneyPage): Promise<number> =>
  page
    .locator('main li')
    .filter({ hasText: /20 nests|12 nests/ })
    .count();

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: now, viewport: LAPTOP });
  await bringIn(app.page, app.address, inventedFiles(20, 11, now));
});

afterAll(async () => {
  await app.close();
});

test('an earlier season is brought in as finished, and the odds learn from it', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/programme/finished`);
  await page.getByText('None on this device yet.').waitFor();
  await page
    .locator('input[type=file][multiple]')
    .first()
    .setInputFiles([...inventedFiles(12, 5, now)]);
  await page.getByLabel('Name of the season').fill('Invented coast 2025');
  await page.getByRole('button', { name: 'Keep it as finished' }).click();
  await page.getByText('have learned from 1 earlier season').waitFor();
  expect(await page.getByRole('listitem').filter({ hasText: '12 nests' }).count()).toBe(1);
  await page.goto(`${app.address}#/tonight`);
  await page.getByText('Learned from 1 earlier season.').waitFor();
});

test('the season is told, replayed in a worker, and what it taught stands beside the defaults', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/season`);
  await page.getByRole('heading', { name: 'Emergences met, missed, unseen' }).waitFor();
  await page.getByRole('button', { name: 'Replay the season' }).click();
  await page
    .getByRole('status')
    .filter({ hasText: /[1-9]\d* %/ })
    .waitFor();
  await page.getByRole('button', { name: 'Stop' }).click();
  await page.getByRole('button', { name: 'Replay the season' }).click();
  await page.getByRole('heading', { name: 'Said and happened' }).waitFor({ timeout: 90_000 });
  const scores = await page.getByRole('table', { name: /^Scores/ }).textContent();
  expect(scores).toMatch(/Our odds.*Day 55.*Learned mean/s);
  await page.getByText('Learned from 1 earlier season with 12 nests').waitFor();
  await page.getByRole('heading', { name: 'Weights and spread' }).waitFor();
});

test.each(papers)('the report fits $paper, with every table and no button', async (paper) => {
  const { page } = app;
  await page.emulateMedia({ media: 'print' });
  await page.setViewportSize({ width: paper.width_px, height: 1000 });
  const wide = await page.evaluate(() => {
    const right = document.documentElement.clientWidth;
    return [...document.querySelectorAll('.season-report *')]
      .filter((one) => one.getBoundingClientRect().right > right + 1)
      .map((one) => `${one.tagName} ${one.textContent.trim().slice(0, 40)}`);
  });
  expect(wide).toEqual([]);
  const ground = await page.evaluate(() => {
    const before = document.documentElement.className;
    document.documentElement.className = 'dark';
    const { backgroundColor } = getComputedStyle(document.body);
    document.documentElement.className = before;
    return backgroundColor;
  });
  expect(ground, 'printed at night, it is ink on white all the same').toMatch(
    /255, 255, 255|0, 0, 0, 0/,
  );
  const report = page.locator('.season-report');
  expect(await report.locator('button:visible, input:visible').count()).toBe(0);
  expect(await report.locator('figure').count()).toBe(
    await report.locator('figure table:visible').count(),
  );
  expect(await app.printedSheets(page, paper.format)).toBeGreaterThan(1);
  await page.emulateMedia({ media: 'screen' });
  await page.setViewportSize(LAPTOP);
});

test('the season is closed: the next begins empty, with the same people, taught by both', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/programme/finished`);
  await page.getByRole('button', { name: 'Close this season …' }).click();
  await page.getByRole('button', { name: 'Close it and begin the next' }).click();
  await page.getByText('The next season has begun').waitFor();
  await page.getByText('There is no nest in it yet').waitFor();
  await expect.poll(() => kept(page), { timeout: 15_000 }).toBe(2);
  await page.goto(`${app.address}#/programme/people`);
  expect(await page.locator('main li').count()).toBeGreaterThan(3);
  await page.reload();
  await page.goto(`${app.address}#/programme/finished`);
  await expect.poll(() => kept(page), { timeout: 15_000 }).toBe(2);
});

test('a finished season is removed after it was asked about', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Remove Invented coast 2025 …' }).click();
  await page.getByRole('button', { name: 'Remove it now' }).click();
  await page.getByText('20 nests').waitFor();
  const gone = page.getByRole('button', { name: 'Remove Invented coast 2025 …' });
  await expect.poll(() => gone.count(), { timeout: 15_000 }).toBe(0);
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
