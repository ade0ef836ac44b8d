import type { Sound, Surface } from '../../src/core/domain/visit.ts';
import type { JourneyPage } from './engines/journey-page.ts';
import type { PickedFile } from './invented-files.ts';

/** What stands on the screen for a text of the code: the text itself where the app is in English. */
export type Say = (english: string) => string;
const inEnglish: Say = (english) => english;

/** Opens the app for the first time and brings in the files of a season. */
export async function bringIn(
  page: JourneyPage,
  address: string,
  files: readonly PickedFile[],
  say: Say = inEnglish,
): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: say('Bring my tables') }).click();
  await page.getByRole('button', { name: say('I have read this') }).click();
  await page
    .locator('input[type=file][multiple]')
    .first()
    .setInputFiles([...files]);
  await page.getByRole('button', { name: say('Take it all') }).click();
  await page.getByRole('link', { name: say('See tonight’s ranking') }).click();
  await page.getByRole('heading', { name: say('Most likely to boil tonight') }).waitFor();
}

/** Opens the app for the first time with the season of the invented coast. */
export async function openInvented(
  page: JourneyPage,
  address: string,
  say: Say = inEnglish,
): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: say('Open the invented season') }).click();
  await page.getByRole('button', { name: say('I have read this') }).click();
  await page.locator('.ranking li').first().waitFor({ timeout: 60_000 });
}

export interface Ranked {
  readonly nest: string;
  readonly chance: string;
}

/** The top of the ranking as it stands on the screen. */
export async function ranking(page: JourneyPage): Promise<readonly Ranked[]> {
  return page.locator('.ranking ol > li').evaluateAll((rows) =>
    rows.map((row) => ({
      nest: row.querySelector('.name strong')?.textContent ?? '',
      chance: row.querySelector('.chance')?.textContent ?? '',
    })),
  );
}

/** The chance of one nest on the screen, as it is written. */
export async function chanceOf(page: JourneyPage, nest: string): Promise<string> {
  const row = (await ranking(page)).find((entry) => entry.nest === nest);
  return row?.chance ?? 'not in the ranking';
}

/** Taps a note of one nest from its line in the ranking, as somebody whose name is not set yet. */
export async function note(
  page: JourneyPage,
  nest: string,
  surface: Surface,
  sound: Sound,
  say: Say = inEnglish,
): Promise<void> {
  await page
    .getByRole('link', { name: say('Note at nest {0}').replace('{0}', nest), exact: true })
    .first()
    .click();
  const nobody = page.getByRole('button', { name: say('Note without a name') });
  const seen = page.getByRole('button', { name: new RegExp(`^${say(surface)}`, 'i') });
  await nobody.or(seen).first().waitFor();
  if (await nobody.isVisible()) await nobody.click();
  await seen.first().click();
  await page
    .getByRole('button', { name: new RegExp(`^${say(sound)}`, 'i') })
    .first()
    .click();
  await page.getByText(say('Saved on this device')).first().waitFor();
}
