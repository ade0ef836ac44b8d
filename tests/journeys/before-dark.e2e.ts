import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { launch, type OpenApp } from './in-engine.ts';
import { bringIn } from './steps.ts';

const afternoon = '2026-08-20T15:00:00-04:00';
let app: OpenApp;

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: afternoon });
  await bringIn(app.page, app.address, inventedFiles(8, 11, afternoon));
});

afterAll(async () => {
  await app.close();
});

test('the list before dark ends in ready once all that the night needs is there', async () => {
  const { page } = app;
  await app.readyForOffline();
  await page.goto(`${app.address}#/tonight`);
  await page.getByRole('link', { name: 'Get ready before dark' }).click();
  await page.getByText('Not ready yet:').waitFor();
  await page.goto(`${app.address}#/programme`);
  await page.getByRole('group', { name: 'My name' }).getByRole('button').first().click();
  await page.goto(`${app.address}#/ready`);
  await page.getByText('Nothing is missing that the night needs').waitFor();
});

test('what to look and listen for fits one printed page, and its sounds are there', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/help`);
  await page.getByRole('img', { name: /sunk barely/ }).waitFor();
  for (const format of ['A4', 'Letter'] as const) {
    expect(await app.printedSheets(page, format), format).toBe(1);
  }
  const seconds = await page.locator('audio').evaluateAll((list) =>
    Promise.all(
      (list as HTMLAudioElement[]).map(
        (audio) =>
          new Promise<number>((settle, fail) => {
            audio.addEventListener('loadedmetadata', () => {
              settle(audio.duration);
            });
            audio.addEventListener('error', () => {
              fail(new Error(audio.src));
            });
            audio.load();
          }),
      ),
    ),
  );
  expect(seconds.map(Math.round)).toEqual([8, 8, 8, 8]);
});

test('in the dark no sound can be played, and nothing is there to type in', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Dark screen' }).click();
  await expect.poll(() => page.locator('audio, input').count()).toBe(0);
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
