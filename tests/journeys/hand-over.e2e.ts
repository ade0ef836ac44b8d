import { mkdtemp, open, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { launch, type Launched } from './launch.ts';
import { type Picture, notRed, readPng } from './png.ts';
import { bringIn, chanceOf, note, ranking } from './steps.ts';

/** By daylight both phones were given the tables of the season. */
const evening = '2026-08-20T18:30:00-04:00';
const night = '2026-08-20T22:30:00-04:00';
const tables = inventedFiles(20, 11, evening);

let giver: Launched;
let folder = '';

beforeAll(async () => {
  giver = await launch({ colorScheme: 'light', startsAt: evening });
  await bringIn(giver.page, giver.address, tables);
  folder = await mkdtemp(join(tmpdir(), 'firstdark-codes-'));
});

afterAll(async () => {
  await giver.close();
  await rm(folder, { recursive: true, force: true });
});

/** What a camera of 640 x 480 would see of pictures of a screen, as uncompressed YUV4MPEG2 video. */
async function film(pictures: readonly Picture[], path: string): Promise<void> {
  const [width, height] = [640, 480];
  const file = await open(path, 'w');
  await file.write(`YUV4MPEG2 W${width} H${height} F8:1 Ip A1:1 C420jpeg\n`);
  for (const picture of pictures) {
    const luma = Buffer.alloc(width * height);
    const [blue, red] = [
      Buffer.alloc((width * height) / 4, 128),
      Buffer.alloc((width * height) / 4, 128),
    ];
    const [left, top] = [(width - picture.width) >> 1, (height - picture.height) >> 1];
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const [px, py] = [x - left, y - top];
        const isInside = px >= 0 && py >= 0 && px < picture.width && py < picture.height;
        const at = isInside ? (py * picture.width + px) * picture.channels : -1;
        const r = at < 0 ? 0 : (picture.bytes[at] ?? 0);
        // Full-range BT.601 of a pixel that gives off red light alone (ITU-R BT.601, from memory).
        luma[y * width + x] = Math.round(0.299 * r);
        if (x % 2 === 0 && y % 2 === 0) {
          const half = (y >> 1) * (width >> 1) + (x >> 1);
          blue[half] = Math.round(128 - 0.168736 * r);
          red[half] = Math.min(255, Math.round(128 + 0.5 * r));
        }
      }
    }
    // Each code is held for two pictures.
    for (const _ of [1, 2]) {
      await file.write('FRAME\n');
      for (const plane of [luma, blue, red]) await file.write(plane);
    }
  }
  await file.close();
}

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
        if ((await code.getAttribute('aria-label')) === label) pictures.set(label, picture);
        return pictures.size;
      },
      { timeout: 40_000, interval: 20 },
    )
    .toBe(pieces);
  for (const picture of pictures.values()) expect(notRed(picture)).toEqual([]);

  const path = join(folder, 'codes.y4m');
  await film([...pictures.values()], path);
  const taker = await launch({
    colorScheme: 'light',
    startsAt: evening,
    permissions: ['camera'],
    flags: ['--use-fake-device-for-media-stream', `--use-file-for-fake-video-capture=${path}`],
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
    expect(notRed(readPng(await other.screenshot({ fullPage: true })))).toEqual([]);
    await other.getByText(/All there\. 1 entry was new/).waitFor({ timeout: 60_000 });
    await other.goto(`${taker.address}#/tonight`);
    await page.goto(`${giver.address}#/tonight`);
    await expect.poll(() => chanceOf(other, nest), { timeout: 20_000 }).not.toBe(before);
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
