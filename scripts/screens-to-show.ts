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

/** The likeliest nest of the evening, with a why open on the way. */
const nest: ScreenToShow = {
  name: 'nest',
  async show(page, ink) {
    await lookAround(page, ink);
    await page.locator('.ranking li a[href^="#/nest/"]').first().click();
    await page.getByText('Chance by night').first().waitFor();
  },
};

/** Tonight scrolled to its first nest, with the reasons for its number. */
const why: ScreenToShow = {
  name: 'tonight-why',
  async show(page, ink) {
    await lookAround(page, ink);
    await page.getByRole('button', { name: 'Why' }).first().click();
    await page.locator('.why').first().waitFor();
    await page.locator('.ranking h2').scrollIntoViewIfNeeded();
    await page.evaluate(() => {
      document.querySelector('.ranking h2')?.scrollIntoView();
    });
  },
};

/** A note under way: who and which nest are known. */
const noting: ScreenToShow = {
  name: 'noting',
  async show(page, ink) {
    await lookAround(page, ink);
    const link = page.locator('.ranking li a[href^="#/note"]').first();
    await link.click();
    await page
      .getByRole('button', { name: /trained/ })
      .first()
      .click();
    await settled(page);
  },
};

/** The roster with a plan, and one post of it open. */
const planned: ScreenToShow = {
  name: 'roster-planned',
  async show(page, ink) {
    await lookAround(page, ink);
    await page.evaluate(() => {
      location.hash = '#/roster';
    });
    await page.getByRole('button', { name: 'Make a plan' }).click();
    await page.getByRole('button', { name: 'Plan again' }).waitFor({ timeout: LONGEST_WAIT_MS });
    await page.locator('button.sat').first().click();
  },
};

/** A screen about the likeliest nest of the evening, by the first part of its address. */
function atLikeliest(name: string, place: string, ready: string): ScreenToShow {
  return {
    name,
    async show(page, ink) {
      await lookAround(page, ink);
      const nest = await page.locator('.ranking li .name strong').first().textContent();
      await page.evaluate(
        (to) => {
          location.hash = to;
        },
        `#/${place}/${encodeURIComponent(nest ?? '')}`,
      );
      await page.locator(ready).first().waitFor();
    },
  };
}

/** Every screen there is; add a line with each new one. */
export const SCREENS: readonly ScreenToShow[] = [
  { name: 'first-open', show: () => Promise.resolve() },
  inSeason('tonight', '#/tonight'),
  why,
  nest,
  inSeason('note', '#/note'),
  noting,
  inSeason('programme', '#/programme'),
  inSeason('people', '#/programme/people'),
  inSeason('import', '#/programme/import'),
  inSeason('backup', '#/programme/backup'),
  inSeason('devices', '#/programme/devices'),
  inSeason('ready', '#/ready'),
  inSeason('help', '#/help'),
  inSeason('earlier-seasons', '#/programme/finished'),
  inSeason('defaults', '#/programme/defaults'),
  atLikeliest('boil', 'boil', '.one'),
  atLikeliest('orientation', 'orientation', 'svg.live'),
  atLikeliest('listen', 'listen', '.listen'),
  inSeason('inventory', '#/inventory'),
  inSeason('roster', '#/roster'),
  planned,
  inSeason('my-nights', '#/roster/mine'),
  inSeason('who-can-when', '#/roster/people'),
  inSeason('how-many-pairs', '#/roster/crews'),
  inSeason('season', '#/season'),
  inSeason('cautions', '#/programme/cautions'),
];
