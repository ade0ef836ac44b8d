import { afterAll, beforeAll, expect, test } from 'vitest';
import { inventedFiles } from './invented-files.ts';
import { launch, type OpenApp } from './in-engine.ts';
import { bringIn, ranking } from './steps.ts';

const now = '2026-08-20T15:00:00-04:00';
let app: OpenApp;

// Chromium heeds `Storage.overrideQuotaForOrigin` neither for small nor for 5 MB writes of an
// off-the-record profile (tried), so the refusal itself is put in its mouth.
function refuseAllWrites(): void {
  const { prototype } = IDBObjectStore;
  const put = prototype.put;
  Object.assign(window, {
    makeRoom: () => {
      prototype.put = put;
    },
  });
  prototype.put = () => {
    throw new DOMException('The quota has been exceeded.', 'QuotaExceededError');
  };
}

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: now });
});

afterAll(async () => {
  await app.close();
});

test('a note that finds no room says so, stays on the screen, and can be saved once there is room', async () => {
  const { page } = app;
  await bringIn(page, app.address, inventedFiles(20, 3, now));
  const nest = (await ranking(page))[0]?.nest ?? '';
  await page.evaluate(refuseAllWrites);
  await page
    .getByRole('link', { name: `Note at nest ${nest}`, exact: true })
    .first()
    .click();
  const nobody = page.getByRole('button', { name: /without (a )?name/i });
  const caved = page.getByRole('button', { name: /^caved/i }).first();
  await nobody.or(caved).first().waitFor();
  if (await nobody.isVisible()) await nobody.click();
  await caved.click();
  await page
    .getByRole('button', { name: /^steady/i })
    .first()
    .click();
  await page
    .getByText(/no room left/)
    .first()
    .waitFor();
  expect(await page.getByText('Saved on this device').count()).toBe(0);
  await page.evaluate(() => {
    (window as unknown as { makeRoom: () => void }).makeRoom();
  });
  await page
    .getByRole('button', { name: /again|retry/i })
    .first()
    .click();
  await page.getByText('Saved on this device').first().waitFor();
  await page.reload();
  await page.goto(`${app.address}#/nest/${nest}`);
  await page.locator('main').getByText(/caved/i).first().waitFor({ state: 'attached' });
});
