import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { chanceText } from '../../src/app/screens/note/chance-text.ts';
import { isEngineHere, launch, type OpenApp } from './in-engine.ts';
import { forecastOf, inventedFiles } from './invented-files.ts';
import { redAlone } from './red-alone.ts';
import { bringIn, chanceOf, note, ranking } from './steps.ts';

// What must hold in any engine, in one short journey; Chromium has it in longer ones.
const now = '2026-08-20T15:00:00-04:00';
const night = '2026-08-20T22:30:00-04:00';
const files = inventedFiles(12, 11, now);

describe.skipIf(!isEngineHere())('in any engine', () => {
  let app: OpenApp;

  beforeAll(async () => {
    app = await launch({ colorScheme: 'light', startsAt: now });
  });

  afterAll(async () => {
    await app.close();
  });

  test('a season comes in, is ranked as the core ranks it, and a note moves a nest', async () => {
    const { page } = app;
    await bringIn(page, app.address, files);
    const wanted = forecastOf(files, now).nests.map(({ record, pTonight }) => ({
      nest: record.nest.id,
      chance: chanceText(pTonight),
    }));
    const { length } = await ranking(page);
    await expect.poll(() => ranking(page), { timeout: 60_000 }).toEqual(wanted.slice(0, length));
    const { nest, chance } = wanted[2] ?? { nest: '', chance: '' };
    await note(page, nest, 'caved', 'waterfall');
    await page.goto(`${app.address}#/tonight`);
    await expect.poll(() => chanceOf(page, nest), { timeout: 15_000 }).not.toBe(chance);
  });

  test('at night and without network it opens again, in red alone', async () => {
    const { page } = app;
    const before = (await ranking(page)).map(({ nest }) => nest);
    await app.readyForOffline();
    await app.cutNetwork();
    await app.context.clock.setSystemTime(night);
    await page.reload();
    await page.locator('html.dark .ranking li').first().waitFor();
    expect((await ranking(page)).map(({ nest }) => nest).sort()).toEqual(before.sort());
    await redAlone(page);
    expect(app.consoleErrors).toEqual([]);
  });
});
