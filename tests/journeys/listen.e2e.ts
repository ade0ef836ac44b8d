import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { fixtureFolder, fixtures } from '../builders/sounds.ts';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, launch, type OpenApp } from './in-engine.ts';
import { redAlone } from './red-alone.ts';
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
/** Hears steady scratching from the start, while the others are looked at. */
let steady: OpenApp;
/** May not use its microphone. */
let deaf: OpenApp;

beforeAll(async () => {
  [app, steady, deaf] = await Promise.all([
    hearing(file),
    hearing('steady-fast.wav'),
    launch({ colorScheme: 'light', startsAt: evening }),
  ]);
  const files = inventedFiles(12, 11, evening);
  const [nests] = await Promise.all(
    [app, steady, deaf].map(async (each) => {
      await bringIn(each.page, each.address, files);
      const ranked = await ranking(each.page);
      if (each !== app) await listenAt(each.page, each.address, ranked[0]?.nest ?? '');
      return ranked;
    }),
  );
  nest = nests?.[0]?.nest ?? '';
});

afterAll(async () => {
  await Promise.all([app, steady, deaf].map((each) => each.close()));
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
  await redAlone(page, true);
  await page.getByRole('button', { name: 'Stop listening' }).click();
});

test('nothing went wrong on the way, and nothing was asked of anybody else', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});

test('a microphone that is refused is said, with what to do', async () => {
  const problem = deaf.page.locator('.problem[role=alert]');
  await problem.waitFor();
  expect(await problem.textContent()).toMatch(
    /Allow it in the settings|Plug it in|could not be started/,
  );
});

test('steady scratching reaches its state and its rate', async () => {
  const { page } = steady;
  const counted_s = async (): Promise<number> => {
    const text = await page.locator('.counted').textContent();
    const [, minutes = 0, seconds = 0] = /(\d+):(\d+) counted/.exec(text ?? '') ?? [];
    return 60 * Number(minutes) + Number(seconds);
  };
  // The file is 16 s long and plays anew; the newest 6 s wait.
  await expect.poll(counted_s, { timeout: 90_000 }).toBeGreaterThanOrEqual(16);
  const { scratch_per_min } = fixtures.find(({ file: name }) => name === 'steady-fast.wav')!;
  const heard = async (): Promise<string> => {
    const rate = Number(await page.locator('.numbers b').first().textContent());
    const isNear = Math.abs(rate / (scratch_per_min ?? 1) - 1) < 0.2;
    return `${await page.locator('.word').textContent()}, ${isNear ? 'near its rate' : rate}`;
  };
  // A busy machine plays the file with gaps, which are heard as rests until more has been heard.
  await expect.poll(heard, { timeout: 60_000 }).toBe('steady, near its rate');
});
