// npm run pictures: the two pictures of README.md, of the invented season on a phone, into docs/.
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { launch, PHONE, type Launched } from '../tests/journeys/launch.ts';
import { openInvented, ranking } from '../tests/journeys/steps.ts';
import { ensureBuilt } from './build.mjs';
import { settled } from './settled.ts';

const DOCS = join(import.meta.dirname, '..', 'docs');
const LONGEST_WAIT_MS = 120_000;

ensureBuilt();
const day = await opened('light', '2026-08-20T15:00:00-04:00');
const nest = (await ranking(day.page))[0]?.nest ?? '';
const tonight = await picture(day.page);
await at(day, `#/nest/${nest}`, 'Chance by night, and its notes');
const oneNest = await picture(day.page);
await at(day, '#/roster', 'Checks that would pay');
await day.page.getByRole('button', { name: 'Make a plan' }).click();
await day.page.getByRole('button', { name: 'Plan again' }).waitFor({ timeout: LONGEST_WAIT_MS });
await settled(day.page);
await upTo(day.page, '.roster button.strong');
const roster = await picture(day.page);
await at(day, '#/season', 'Emergences met, missed, unseen');
await upTo(day.page, 'figure');
const season = await picture(day.page);

const dark = await opened('dark', '2026-08-20T22:30:00-04:00');
await dark.page.getByRole('button', { name: 'Why' }).first().click();
await dark.page.locator('.why').first().waitFor();
await settled(dark.page);
await upTo(dark.page, '.ranking li');
const why = await picture(dark.page);
await at(dark, `#/note/${nest}`, 'Who is noting?');
await dark.page.getByRole('button', { name: 'Note without a name' }).click();
await dark.page.getByRole('button', { name: /^dip/ }).first().click();
await settled(dark.page);
const note = await picture(dark.page);
await dark.close();

await sideBySide(day, [tonight, why], 'tonight.png');
await sideBySide(day, [oneNest, note, roster, season], 'screens.png');
await day.close();

/** The invented season on a phone, without the bar that says it is there offline now. */
async function opened(colorScheme: 'light' | 'dark', startsAt: string): Promise<Launched> {
  const app = await launch({ colorScheme, startsAt });
  await openInvented(app.page, app.address);
  const close = app.page.getByRole('button', { name: 'Close' });
  await close.waitFor({ timeout: LONGEST_WAIT_MS });
  await close.click();
  await settled(app.page);
  return app;
}

async function at({ page, address }: Launched, hash: string, text: string): Promise<void> {
  await page.goto(`${address}${hash}`);
  await page.getByText(text).first().waitFor();
  await settled(page);
}

/** Scrolls so that the first of these stands at the top, below what stays there. */
async function upTo(page: Page, selector: string): Promise<void> {
  await page.evaluate((wanted) => {
    const found = document.querySelector<HTMLElement>(wanted);
    if (found === null) throw new Error(`There is no ${wanted} on the page.`);
    found.style.scrollMarginTop = '4.5rem';
    found.scrollIntoView();
  }, selector);
  await settled(page);
}

async function picture(page: Page): Promise<string> {
  const png = await page.screenshot({ animations: 'disabled' });
  return `data:image/png;base64,${png.toString('base64')}`;
}

async function sideBySide(
  { browser }: Launched,
  pictures: readonly string[],
  name: string,
): Promise<void> {
  const gap = 16;
  const width = pictures.length * (PHONE.width + gap) + gap;
  const page = await browser.newPage({ viewport: { width, height: PHONE.height + 2 * gap } });
  const row = `display: flex; gap: ${gap}px; margin: 0; padding: ${gap}px; background: #d9d0bf`;
  await page.setContent(
    `<body style="${row}">${pictures.map((one) => `<img src="${one}">`).join('')}`,
  );
  await page.screenshot({ path: join(DOCS, name) });
  console.log(join('docs', name));
}
