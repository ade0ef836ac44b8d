import { expect } from 'vitest';
import type { JourneyPage } from './in-engine.ts';
import { litShare, notRed, type Picture, readPng } from './png.ts';

/** Of a picture on which anything is drawn, at least this share of the pixels is lit. */
const DRAWN = 0.002;

/** A picture of the page as it stands, drawn or still black: fails if any of it is green or blue. */
export async function redOrBlack(page: JourneyPage, fullPage = false): Promise<Picture> {
  const picture = readPng(await page.screenshot({ fullPage }));
  expect(notRed(picture)).toEqual([]);
  return picture;
}

/**
 * A picture of the page once something is drawn on it. Fails if it or a picture before it gives off
 * green or blue light, naming the first pixels, and if nothing is drawn within some seconds: a page
 * that has just been turned to may still be black, and a black picture proves nothing.
 */
export async function redAlone(page: JourneyPage, fullPage = false): Promise<Picture> {
  let picture = await redOrBlack(page, fullPage);
  for (let look = 0; look < 30 && litShare(picture) <= DRAWN; look++) {
    await page.waitForTimeout(100);
    picture = await redOrBlack(page, fullPage);
  }
  expect(litShare(picture)).toBeGreaterThan(DRAWN);
  return picture;
}
