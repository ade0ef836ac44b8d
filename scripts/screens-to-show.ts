import type { Page } from 'playwright-core';
import { settled } from './settled.ts';

/** Drawing up the invented season takes a while on a busy machine. */
const LONGEST_WAIT_MS = 60_000;

/** One picture to take. `show` starts from the app as it opens for the first time. */
export interface ScreenToShow {
  /** Part of the file's name. */
  readonly name: string;
  readonly show: (page: Page, ink: 'dark' | 'day') => Promise<void>;
}

/** Opens the invented season, as somebody who has read the cautions, and chooses the ink. */
async function lookAround(page: Page, ink: 'dark' | 'day'): Promise<void> {
  await page.getByRole('button', { name: 'Open the invented season' }).click();
  await page.getByRole('button', { name: 'I have read this' }).click({ timeout: LONGEST_WAIT_MS });
  await page.getByRole('navigation').first().waitFor({ timeout: LONGEST_WAIT_MS });
  await settled(page);
  const change = page.getByRole('button', { name: ink === 'dark' ? 'Dark screen' : 'Day screen' });
  if ((await change.count()) > 0) await change.click();
  await settled(page);
}

/** A screen of the invented season, by its place in the address bar. */
function inSeason(name: string, hash: string): ScreenToShow {
  return {
    name,
    async show(page, ink) {
      await lookAround(page, ink);
      await page.evaluate((place) => {
        location.hash = place;
      }, hash);
    },
  };
}

/** Every screen there is; add a line with each new one. */
export const SCREENS: readonly ScreenToShow[] = [
  { name: 'first-open', show: () => Promise.resolve() },
  inSeason('tonight', '#/tonight'),
  inSeason('note', '#/note'),
  inSeason('programme', '#/programme'),
];
