import { afterAll, beforeAll, expect, test } from 'vitest';
import { hostileFiles } from '../builders/hostile-season.ts';
import { launch, type OpenApp, PHONE } from './in-engine.ts';
import { bringIn } from './steps.ts';

const evening = '2026-07-20T17:00:00-04:00';
const screens = [
  'tonight',
  'nest/%3Cimg%20src%3Dx%20onerror%3D%22document.documentElement.dataset.ran%3D1%22%3E',
  'nest/__proto__',
  'nest/constructor/record',
  'note',
  'boil/__proto__',
  'orientation',
  'inventory',
  'roster',
  'roster/people',
  'season',
  'register',
  'programme/overview',
  'programme/people',
  'programme/backup',
  'programme/devices',
];

let app: OpenApp;
beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: evening, viewport: PHONE });
});
afterAll(async () => {
  await app.close();
});

test('cells full of markup, scripts and formulas stay text on every screen of a phone', async () => {
  const { page, address } = app;
  const files = Object.entries(hostileFiles()).map(([name, text]) => ({
    name,
    mimeType: name.endsWith('.json') ? 'application/json' : 'text/csv',
    buffer: Buffer.from(text),
  }));
  await bringIn(page, address, files);
  for (const screen of screens) {
    await page.goto(`${address}#/${screen}`);
    await page.locator('h1, h2').first().waitFor();
    const found = await page.evaluate(() => ({
      ran: document.documentElement.dataset['ran'] ?? null,
      made: document.querySelectorAll(
        'img[src="x"], body script, iframe, a[href^="javascript:"], [onerror]',
      ).length,
      elsewhere: performance
        .getEntriesByType('resource')
        .filter(({ name }) => new URL(name).origin !== location.origin).length,
      tooWide_px: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    }));
    expect({ screen, ...found }).toEqual({
      screen,
      ran: null,
      made: 0,
      elsewhere: 0,
      tooWide_px: 0,
    });
  }
  await page.goto(`${address}#/tonight`);
  await page.getByText('<img src=x onerror=').first().waitFor();
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
