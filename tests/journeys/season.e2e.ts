import { afterAll, beforeAll, expect, test } from 'vitest';
import { chanceText } from '../../src/app/screens/note/chance-text.ts';
import { forecastOf, inventedFiles } from './invented-files.ts';
import { launch, type OpenApp } from './in-engine.ts';
import { bringIn, chanceOf, note, type Ranked, ranking } from './steps.ts';

// An afternoon in the season's busiest weeks: the day screen, since files are picked on it.
const now = '2026-08-20T15:00:00-04:00';
const files = inventedFiles(60, 11, now);

let app: OpenApp;
/** A nest whose odds a note will move, and what they were. */
let watched = { nest: '', chance: '' };

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: now });
});

afterAll(async () => {
  await app.close();
});

test('a season folder comes in and is ranked just as the core ranks it', async () => {
  await bringIn(app.page, app.address, files);
  const wanted: readonly Ranked[] = forecastOf(files, now).nests.map(({ record, pTonight }) => ({
    nest: record.nest.id,
    chance: chanceText(pTonight),
  }));
  expect(wanted.length).toBeGreaterThan(5);
  // The first odds are quick to have; those by cues learned from the folder take their place.
  const { length } = await ranking(app.page);
  expect(length).toBeGreaterThan(5);
  const learned = wanted.slice(0, length);
  await expect.poll(() => ranking(app.page), { timeout: 60_000 }).toEqual(learned);
  watched = learned[2] ?? watched;
});

test('bringing the same folder in again adds nothing', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/programme/import`);
  await page
    .locator('input[type=file][multiple]')
    .first()
    .setInputFiles([...files]);
  await page.getByText('All of it is here already.').waitFor();
  await page.goto(`${app.address}#/tonight`);
});

test('a note of three taps moves the nest', async () => {
  const { page } = app;
  await note(page, watched.nest, 'caved', 'waterfall');
  await page.goto(`${app.address}#/tonight`);
  await expect
    .poll(() => chanceOf(page, watched.nest), { timeout: 15_000 })
    .not.toBe(watched.chance);
  const [first] = await ranking(page);
  expect(first?.nest).toBe(watched.nest);
  watched = first ?? watched;
});

test('every chance can be asked why, and the note is among the reasons', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Why' }).first().click();
  // Asked anew whenever the odds have become better meanwhile.
  let reasons: readonly string[] = [];
  const told = async (): Promise<string> => {
    reasons = await page.locator('.why li').allTextContents();
    return reasons.join(' ');
  };
  await expect.poll(told, { timeout: 15_000 }).toMatch(/waterfall/);
  expect(reasons.every((reason) => reason.includes('×'))).toBe(true);
});

test('a second tab shows the note, and one made there shows here', async () => {
  const { page } = app;
  const other = await app.secondTab();
  await other.goto(app.address);
  await expect.poll(() => chanceOf(other, watched.nest), { timeout: 15_000 }).toBe(watched.chance);
  const second = (await ranking(other))[1];
  if (second === undefined) throw new Error('The ranking has no second nest.');
  await note(other, second.nest, 'caved', 'waterfall');
  await expect.poll(() => chanceOf(page, second.nest), { timeout: 15_000 }).not.toBe(second.chance);
  await other.close();
});

test('without network the page opens again with everything on it', async () => {
  const { page } = app;
  await app.readyForOffline();
  const before = await ranking(page);
  await app.cutNetwork();
  await page.reload();
  await expect.poll(() => ranking(page), { timeout: 20_000 }).toEqual(before);
  await page.getByRole('link', { name: 'Programme' }).click();
  await page.getByRole('heading', { name: 'The beach' }).waitFor();
});

test('nothing went wrong on the way, and nothing was asked of anybody else', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
