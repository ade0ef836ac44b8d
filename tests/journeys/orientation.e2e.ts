import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { launch, type OpenApp } from './in-engine.ts';
import { redAlone } from './red-alone.ts';
import { bringIn, ranking } from './steps.ts';

const afternoon = '2026-08-20T15:00:00-04:00';
const dawn = '2026-08-21T05:20:00-04:00';
const morning = '2026-08-21T10:00:00-04:00';

let app: OpenApp;
let nest = '';

/** Points the dial so many degrees right of the line to the sea, which is up, and takes the bearing. */
async function point(turn_deg: number, take: string): Promise<void> {
  const dial = app.page.locator('svg.live');
  await dial.scrollIntoViewIfNeeded();
  const box = await dial.boundingBox();
  if (box === null) throw new Error('the dial is drawn');
  const turn = (turn_deg * Math.PI) / 180;
  const [x, y] = [Math.sin(turn), -Math.cos(turn)].map((part) => part * box.width * 0.3) as [
    number,
    number,
  ];
  await app.page.mouse.click(box.x + box.width / 2 + x, box.y + box.height / 2 + y);
  await app.page.getByRole('button', { name: take }).click();
}

async function aim(name: string): Promise<void> {
  await app.page
    .getByRole('group', { name: 'What I point at' })
    .getByRole('button', { name, exact: true })
    .click();
}

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: afternoon });
  const files = inventedFiles(8, 11, afternoon).filter(({ name }) => name !== 'orientation.csv');
  await bringIn(app.page, app.address, files);
  nest = (await ranking(app.page))[0]?.nest ?? '';
  await app.context.clock.setSystemTime(dawn);
  await app.page.reload();
  await app.page.goto(`${app.address}#/orientation/${encodeURIComponent(nest)}`);
  await app.page.locator('svg.live').waitFor();
});

afterAll(async () => {
  await app.close();
});

test('before sunrise tracks go in by the dial, in red alone and with nothing to type', async () => {
  const { page } = app;
  await page.getByText('Night of Thu 20 Aug').waitFor();
  for (const turn_deg of [-8, 4, 15, 30, 62, 75, 80, 91]) {
    await point(turn_deg, 'Add this track');
  }
  await aim('Main way');
  await point(75, 'Most went this way');
  await aim('A lamp');
  await page.getByRole('button', { name: 'hand light' }).click();
  await page.getByRole('button', { name: 'white', exact: true }).click();
  await point(110, 'Add this lamp');
  await page.getByText(/^8 tracks, a fan (9[89]|100)° wide, main way 7[3-7]° right/).waitFor();
  await redAlone(page);
  expect(await page.locator('input, select, textarea').count()).toBe(0);
});

test('the moon is filled in, and what was counted is saved', async () => {
  const { page } = app;
  await page.getByText(/Moon: .*(crescent|half moon|gibbous|new moon|full moon)/).waitFor();
  const astray = page.getByRole('group', { name: 'Went astray' });
  await astray.getByRole('button', { name: 'five more' }).click();
  await page.getByRole('button', { name: 'Save which way they went' }).click();
  await page.getByText('Saved on this device.').waitFor();
});

test('by daylight the report is filled in from the record and fits one printed page', async () => {
  const { page, context } = app;
  await context.clock.setSystemTime(morning);
  await page.reload();
  await page.getByRole('link', { name: 'Report' }).first().click();
  await page.getByRole('heading', { name: 'Disorientation report' }).waitFor();
  await page.getByText('Check your agency’s own form').waitFor();
  const value = (name: string) =>
    page.locator('dl > div', { hasText: name }).locator('dd').first().textContent();
  expect(await value('Disoriented, estimated')).toBe('5');
  expect(await value('Tracks counted')).toBe('8');
  expect(await value('Likely sources of light')).toBe('white hand light');
  expect(await value('Nest')).toBe(nest);
  expect(await value('Permit number')).toBe('');
  expect(await app.printedSheets(page, 'A4')).toBe(1);
  await page.emulateMedia({ media: 'print' });
  expect(await page.getByRole('navigation').first().isVisible()).toBe(false);
  expect(await page.getByRole('button', { name: /Print/ }).isVisible()).toBe(false);
  await page.emulateMedia({ media: 'screen' });
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
