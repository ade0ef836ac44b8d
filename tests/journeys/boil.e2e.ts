import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, launch, type OpenApp } from './in-engine.ts';
import { redAlone } from './red-alone.ts';
import { bringIn, ranking } from './steps.ts';

const afternoon = '2026-08-20T15:00:00-04:00';
const night = '2026-08-20T22:30:00-04:00';
const morning = '2026-08-21T10:00:00-04:00';

/** Two phones that know the same nests, and nothing yet of each other. */
let [ada, bo]: [OpenApp | null, OpenApp | null] = [null, null];
let nest = '';

function phones(): [OpenApp, OpenApp] {
  if (ada === null || bo === null) throw new Error('both phones are on');
  return [ada, bo];
}

async function begin(name: string): Promise<OpenApp> {
  const app = await launch({ colorScheme: 'light', startsAt: afternoon });
  const files = inventedFiles(8, 11, afternoon);
  await bringIn(app.page, app.address, files);
  nest = (await ranking(app.page))[0]?.nest ?? '';
  await app.page.goto(`${app.address}#/programme`);
  await app.page
    .getByLabel(/my name|another name/i)
    .last()
    .fill(name);
  await app.page.getByRole('button', { name: 'That is me' }).click();
  await app.context.clock.setSystemTime(night);
  await app.page.reload();
  await app.page.goto(`${app.address}#/boil/${encodeURIComponent(nest)}`);
  await app.page.getByRole('heading', { name: `Boil at ${nest}` }).waitFor();
  return app;
}

/** Taps the large area so many times, then the counter of those at the water. */
async function count(page: JourneyPage, taps: number, fives: number): Promise<void> {
  const one = page.getByRole('button', { name: /^One more/ });
  for (let tap = 0; tap < taps; tap++) await one.click();
  for (let tap = 0; tap < fives; tap++) {
    await page.getByRole('button', { name: '+5', exact: true }).click();
  }
}

beforeAll(async () => {
  ada = await begin('Ada Invented');
  bo = await begin('Bo Invented');
});

afterAll(async () => {
  await ada?.close();
  await bo?.close();
});

test('each counts a side in the dark, without a lit pixel, a keyboard or a lost tap', async () => {
  const [{ page: hers }, { page: his }] = phones();
  await count(hers, 4, 7);
  await hers.getByRole('button', { name: 'Undo' }).click();
  await hers.getByRole('button', { name: /^One more, 34 so far/ }).waitFor();
  await count(his, 3, 8);
  for (const page of [hers, his]) {
    await redAlone(page);
    expect(await page.locator('input, select, textarea, [contenteditable]').count()).toBe(0);
    const water = page.getByRole('group', { name: 'Reached the water' });
    for (let five = 0; five < 6; five++) {
      await water.getByRole('button', { name: 'five more' }).click();
    }
  }
});

test('a phone that is switched off in the middle goes on from what it had', async () => {
  const [{ page, address }] = phones();
  await page.getByText('saved on this device').waitFor({ timeout: 20_000 });
  await page.reload();
  await page.goto(`${address}#/boil/${encodeURIComponent(nest)}`);
  await page.getByRole('button', { name: /^One more, 34 so far/ }).waitFor();
});

test('when it is over each phone has its own count on record', async () => {
  const [{ page: hers }, { page: his }] = phones();
  for (const [page, wanted] of [
    [hers, 34],
    [his, 43],
  ] as const) {
    await page.getByRole('button', { name: 'It is over: save' }).click();
    await page.getByText(`${wanted} are on record.`).waitFor();
    await page.getByText(new RegExp(`${wanted} came up`)).waitFor();
  }
});

test('in the morning the two records are put together, and the two sides are added up once', async () => {
  const [first, second] = phones();
  for (const { context, page, address } of [first, second]) {
    await context.clock.setSystemTime(morning);
    await page.reload();
    await page.goto(`${address}#/programme/backup`);
    await page.getByRole('button', { name: 'Save a backup' }).waitFor();
  }
  const [download] = await Promise.all([
    first.page.waitForEvent('download'),
    first.page.getByRole('button', { name: 'Save a backup' }).click(),
  ]);
  const backup = await readFile(await download.path());
  for (let time = 0; time < 2; time++) {
    await second.page.locator('input[type=file][accept*=jsonl]').setInputFiles({
      name: 'ada.jsonl',
      mimeType: 'application/jsonl',
      buffer: backup,
    });
    await second.page
      .getByText(time === 0 ? /[1-9]\d* entries were new/ : /^0 entries were new/)
      .waitFor();
  }
  await second.page.goto(`${second.address}#/boil/${encodeURIComponent(nest)}`);
  await second.page.getByText(/77 came up.*60 reached the water/).waitFor();
  await second.page.getByText('each one’s part added up: Ada Invented and Bo Invented').waitFor();
});

test('the nest is out of the ranking, since it came up', async () => {
  const [, { page, address }] = phones();
  await page.goto(`${address}#/nest/${encodeURIComponent(nest)}`);
  await page.getByText('It came up on the night of').waitFor({ timeout: 20_000 });
});

test('nothing went wrong on the way', () => {
  for (const { consoleErrors, failedRequests } of phones()) {
    expect(consoleErrors).toEqual([]);
    expect(failedRequests).toEqual([]);
  }
});
