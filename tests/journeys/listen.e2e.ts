import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fixtureFolder, fixtures } from '../builders/sounds.ts';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, launch, type OpenApp } from './in-engine.ts';
import { notRed, readPng } from './png.ts';
import { bringIn, chanceOf, ranking } from './steps.ts';

// Chromium's fake microphone plays a file over and over.
const file = 'waterfall.wav';
// By daylight, when the microphone may be asked for.
const evening = '2026-08-20T18:00:00-04:00';

/** An app whose microphone plays a fixture. */
function hearing(name: string): Promise<OpenApp> {
  return launch({
    colorScheme: 'light',
    startsAt: evening,
    microphone: join(fixtureFolder, name),
  });
}

let app: OpenApp;
let nest = '';

beforeAll(async () => {
  app = await hearing(file);
  await bringIn(app.page, app.address, inventedFiles(40, 11, evening));
  nest = (await ranking(app.page))[4]?.nest ?? '';
});

afterAll(async () => {
  await app.close();
});

async function listenAt(page: JourneyPage, address: string, at: string): Promise<void> {
  await page.goto(`${address}#/listen/${encodeURIComponent(at)}`);
  await page.getByRole('button', { name: 'Start listening' }).click();
}

test('a rush is heard through a real microphone path, and the note moves the nest', async () => {
  const { page } = app;
  const before = await chanceOf(page, nest);
  await listenAt(page, app.address, nest);
  await expect
    .poll(() => page.locator('.word').textContent(), { timeout: 40_000 })
    .toBe('waterfall');
  await page.getByRole('button', { name: 'Record a clip' }).click();
  await page.getByText(/Recording: [2-9] of 20 s/).waitFor();
  await page.getByRole('button', { name: 'End the clip' }).click();
  await page.getByText(/Clip of \d+ s, \d+ kB/).waitFor();
  await page.getByRole('button', { name: `Note this at ${nest}` }).click();
  await page.getByText('Saved on this device').waitFor();
  await page.getByText(/Clips on this device: \d+ kB of 21\.0 MB/).waitFor();
  await page.goto(`${app.address}#/tonight`);
  await expect.poll(() => chanceOf(page, nest), { timeout: 20_000 }).not.toBe(before);
});

test('the dark screen listens too, in red alone, without a file picker', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Dark screen' }).click();
  await listenAt(page, app.address, nest);
  await page.locator('.level').first().waitFor();
  await page.waitForTimeout(1500);
  expect(await page.locator('input').count()).toBe(0);
  expect(notRed(readPng(await page.screenshot({ fullPage: true })))).toEqual([]);
  await page.getByRole('button', { name: 'Stop listening' }).click();
});

test('nothing went wrong on the way, and nothing was asked of anybody else', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});

test('steady scratching reaches its state and its rate', async () => {
  const steady = await hearing('steady-fast.wav');
  try {
    await bringIn(steady.page, steady.address, inventedFiles(10, 11, evening));
    const at = (await ranking(steady.page))[0]?.nest ?? '';
    await listenAt(steady.page, steady.address, at);
    const rate = async (): Promise<number> =>
      Number(await steady.page.locator('.numbers b').first().textContent());
    // The file is 16 s long and plays anew; the newest 6 s wait.
    await steady.page.waitForTimeout(23_000);
    expect(await steady.page.locator('.word').textContent()).toBe('steady');
    const { scratch_per_min } = fixtures.find(({ file: name }) => name === 'steady-fast.wav')!;
    expect(Math.abs((await rate()) / (scratch_per_min ?? 1) - 1)).toBeLessThan(0.2);
  } finally {
    await steady.close();
  }
});

test('a microphone that is refused is said, with what to do', async () => {
  const deaf = await launch({ colorScheme: 'light', startsAt: evening });
  try {
    await bringIn(deaf.page, deaf.address, inventedFiles(10, 11, evening));
    await listenAt(deaf.page, deaf.address, (await ranking(deaf.page))[0]?.nest ?? '');
    await deaf.page.locator('.problem[role=alert]').waitFor();
    expect(await deaf.page.locator('.problem[role=alert]').textContent()).toMatch(
      /Allow it in the settings|Plug it in|could not be started/,
    );
  } finally {
    await deaf.close();
  }
});
