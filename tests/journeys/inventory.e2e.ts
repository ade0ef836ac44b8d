import { readFile } from 'node:fs/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { launch, type OpenApp } from './in-engine.ts';
import { bringIn } from './steps.ts';

const afternoon = '2026-08-20T15:00:00-04:00';

let app: OpenApp;

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: afternoon });
  const files = inventedFiles(14, 11, afternoon).map((file) =>
    file.name === 'volunteers.csv' ? withPermitHolder(file) : file,
  );
  const season = files.filter(({ name }) => name !== 'inventory.csv');
  await bringIn(app.page, app.address, season);
});

afterAll(async () => {
  await app.close();
});

/** The table of people with one more, who holds the permit. */
function withPermitHolder<File extends { readonly buffer: Buffer }>(file: File): File {
  const [header = '', ...lines] = file.buffer.toString('utf8').trim().split('\n');
  const blank = ','.repeat(header.split(',').length - 1);
  const rows = [`${header},role`, ...lines.map((line) => `${line},`)];
  const text = [...rows, `Ida Invented${blank},permit holder`, ''].join('\n');
  return { ...file, buffer: Buffer.from(text) };
}

test('inventories are closed to anybody who holds no permit', async () => {
  const { page, address } = app;
  expect(await page.getByRole('link', { name: 'Inventory' }).count()).toBe(0);
  await page.goto(`${address}#/inventory`);
  await page.getByText('Only a permit holder opens a nest').waitFor();
  expect(await page.getByRole('button', { name: /Save the inventory/ }).count()).toBe(0);
});

test('the permit holder sees what is due, counts, and is told what does not add up', async () => {
  const { page, address } = app;
  await page.goto(`${address}#/programme`);
  await page.getByRole('button', { name: 'Ida Invented' }).click();
  await page.getByRole('link', { name: 'Inventory' }).click();
  await page.getByRole('heading', { name: /^Due now/ }).waitFor();
  await page.locator('.inventory li a').first().click();
  const fill = (name: string, value: string) =>
    page.getByRole('textbox', { name, exact: true }).fill(value);
  await fill('Shells', '95');
  await fill('Unhatched eggs', '10');
  await fill('Alive in the nest', '96');
  await fill('Eggs at laying', '108');
  await page.getByText('96 hatchlings were in the nest but only 95 shells').waitFor();
  await fill('Alive in the nest', '86');
  await fill('Dead in the nest', '1');
  expect(await page.getByText('but only 95 shells').count()).toBe(0);
  await page.getByRole('button', { name: 'Save the inventory' }).click();
  // 95 of the 108 laid hatched, and 95 - 86 - 1 of them came out by themselves.
  await page.getByText('Saved on this device: hatched 88.0 %, emerged 7.4 %.').waitFor();
  await page.getByText('of 108 eggs (counted at laying)').waitFor();
});

test('what was counted leaves with the season, and the public gets no exact position of it', async () => {
  const { page, address } = app;
  await page.goto(`${address}#/programme/backup`);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Map (GeoJSON)' }).click(),
  ]);
  expect(download.suggestedFilename()).toMatch(/-public-.*\.geojson$/);
  const text = await readFile(await download.path(), 'utf8');
  expect(text).toContain('"hatch_success": 0.879');
  expect(text).toContain('coordinates rounded to 0.1 degree');
  const numbers = [...text.matchAll(/"coordinates": \[\s*(\S+),\s*(\S+)\s*\]/g)];
  expect(numbers.length).toBeGreaterThan(5);
  for (const [, longitude = '', latitude = ''] of numbers) {
    expect(longitude).toMatch(/^-?\d+(\.\d)?$/);
    expect(latitude).toMatch(/^-?\d+(\.\d)?$/);
  }
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
