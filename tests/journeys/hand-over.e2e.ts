import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { launch, type OpenApp } from './in-engine.ts';
import { litShare, notRed, type Picture, readPng } from './png.ts';
import { redAlone } from './red-alone.ts';
import { bringIn, chanceOf, note, ranking } from './steps.ts';

/** By daylight both phones were given the tables of the season. */
const evening = '2026-08-20T18:30:00-04:00';
const night = '2026-08-20T22:30:00-04:00';
const tables = inventedFiles(20, 11, evening);

let giver: OpenApp;

beforeAll(async () => {
  giver = await launch({ colorScheme: 'light', startsAt: evening });
  await bringIn(giver.page, giver.address, tables);
});

afterAll(async () => {
  await giver.close();
});

test('in the dark one phone shows its notes in red, and the other takes them in by its camera', async () => {
  const { page } = giver;
  const nest = (await ranking(page))[3]?.nest ?? '';
  const before = await chanceOf(page, nest);
  await giver.context.clock.setSystemTime(night);
  await page.reload();
  await page.locator('.ranking li').first().waitFor();
  await note(page, nest, 'depression', 'steady');
  await page.goto(`${giver.address}#/programme/devices`);
  await page.getByRole('button', { name: 'Show what I noted since yesterday' }).click();
  const code = page.getByRole('img', { name: /Code \d+ of \d+/ });
  await code.waitFor();
  const pieces = Number(/of (\d+)/.exec((await code.getAttribute('aria-label')) ?? '')?.[1]);
  const pictures = new Map<string, Picture>();
  await expect
    .poll(
      async () => {
        const label = (await code.getAttribute('aria-label')) ?? '';
        const picture = readPng(await code.screenshot());
        // A page that has just been turned to may still be black.
        const isDrawn = litShare(picture) > 0.05;
        if (isDrawn && (await code.getAttribute('aria-label')) === label) {
          pictures.set(label, picture);
        }
        return pictures.size;
      },
      { timeout: 40_000, interval: 20 },
    )
    .toBe(pieces);
  for (const picture of pictures.values()) expect(notRed(picture)).toEqual([]);

  const taker = await launch({
    colorScheme: 'light',
    startsAt: evening,
    camera: [...pictures.values()],
  });
  try {
    const { page: other } = taker;
    await bringIn(other, taker.address, tables);
    await taker.context.clock.setSystemTime(night);
    await other.reload();
    await other.locator('.ranking li').first().waitFor();
    await other.goto(`${taker.address}#/programme/devices`);
    await other.getByRole('button', { name: 'Look at another phone’s codes' }).click();
    await other.getByText('Hold the phone so that').waitFor();
    await redAlone(other, true);
    await other.getByText(/All there\. 1 entry was new/).waitFor({ timeout: 60_000 });
    await other.goto(`${taker.address}#/tonight`);
    await page.goto(`${giver.address}#/tonight`);
    await expect.poll(() => chanceOf(other, nest), { timeout: 60_000 }).not.toBe(before);
    expect(await chanceOf(other, nest)).toBe(await chanceOf(page, nest));
    expect(taker.consoleErrors).toEqual([]);
  } finally {
    await taker.close();
  }
});

test('nothing went wrong on the way', () => {
  expect(giver.consoleErrors).toEqual([]);
  expect(giver.failedRequests).toEqual([]);
});
