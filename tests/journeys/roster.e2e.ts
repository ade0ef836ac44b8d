import { afterAll, beforeAll, expect, test } from 'vitest';
import { bayAfternoon, bayEvening, bayFiles } from './invented-bay.ts';
import { LAPTOP, launch, type OpenApp, PHONE } from './in-engine.ts';
import { redAlone } from './red-alone.ts';
import { bringIn } from './steps.ts';

let app: OpenApp;

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: bayAfternoon });
  await bringIn(app.page, app.address, bayFiles);
});

afterAll(async () => {
  await app.close();
});

/** The name on a chip; a screen reader is told besides that it is pinned. */
function nameIn(text: string | null): string {
  return (text ?? '').split(',')[0]?.trim() ?? '';
}

async function planned(): Promise<void> {
  await app.page.getByRole('button', { name: 'Plan again' }).waitFor({ timeout: 90_000 });
}

test('a lead plans a week on a phone, with the solver that runs beside the page', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/roster`);
  await page.getByRole('button', { name: 'Make a plan' }).click();
  await planned();
  await page.getByText(/boils met to be expected in 7 nights/).waitFor();
  expect(await page.getByText('made step by step').count()).toBe(0);
  expect(await page.locator('button.sat').count()).toBeGreaterThan(2);
  expect(await page.getByText('W-1 + W-2').count()).toBeGreaterThan(0);
});

test('one tap puts a person elsewhere, and the plan is made around it', async () => {
  const { page } = app;
  await page.locator('button.sat').first().click();
  const other = page.getByRole('button', { name: /tap to put here/ }).first();
  const name = (await other.locator('strong').textContent())?.trim() ?? '';
  await other.click();
  await page
    .getByRole('button', { name: new RegExp(`${name} sits here by hand`) })
    .waitFor({ timeout: 90_000 });
  await planned();
  expect(await page.locator('.pinned', { hasText: name }).count()).toBeGreaterThan(0);
  await page.locator('section.card').getByRole('button', { name: 'Close' }).click();
});

test('what is given out reaches the sitter’s own nights, and a calendar', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Give out this plan' }).click();
  await page.getByText('This plan is given out.').waitFor();
  // Whoever is pinned stays where the lead put them, whatever they say: see to one who is not.
  const somebody = nameIn(
    await page.locator('button.sat .name:not(.pinned)').first().textContent(),
  );
  await page.goto(`${app.address}#/roster/mine`);
  await page
    .getByRole('group', { name: 'My name' })
    .getByRole('button', { name: somebody })
    .click();
  await page.getByRole('button', { name: 'I cannot come' }).first().waitFor();
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Into my calendar (.ics)' }).click();
  expect((await coming).suggestedFilename()).toBe(`nest-watch-${somebody.toLowerCase()}.ics`);
});

test('one who cannot come is replaced with one tap', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'I cannot come' }).first().click();
  await page.getByText('You said that you cannot come').first().waitFor();
  await page.goto(`${app.address}#/roster`);
  await page.getByText('have changed since this plan was made').waitFor();
  await page.getByRole('button', { name: 'Plan again' }).click();
  await planned();
  await page.getByText(/it changes\s+\d+\s+shifts?\s+of\s+\d+\s+(person|people)/).waitFor();
});

test('on a laptop a person is dragged from one post to another', async () => {
  const { page } = app;
  await page.setViewportSize(LAPTOP);
  const first = page.locator('td button.sat').first();
  await first.waitFor();
  const column = await first.evaluate((node) => node.closest('td')?.cellIndex ?? 0);
  const chip = first.locator('.name').first();
  const name = nameIn(await chip.textContent());
  const empty = page.locator(`tbody tr td:nth-child(${column + 1}):not(:has(button.sat))`).first();
  const post = await empty.evaluate(
    (node) => node.closest('tr')?.querySelector('.nest')?.textContent ?? '',
  );
  const row = page.locator('tbody tr').filter({ hasText: post });
  const target = row.locator(`td:nth-child(${column + 1})`);
  // Both ends in sight: a page that scrolls under the pointer lets go of what is dragged.
  await first.evaluate((node) => {
    node.scrollIntoView({ block: 'start' });
  });
  await app.drag(chip, target);
  await expect
    .poll(async () => target.locator('.pinned', { hasText: name }).count(), { timeout: 90_000 })
    .toBe(1);
  await planned();
});

test('after dark it is red on black, and opens no keyboard', async () => {
  const { page } = app;
  await app.context.clock.setSystemTime(bayEvening);
  for (const viewport of [PHONE, LAPTOP]) {
    await page.setViewportSize(viewport);
    for (const part of ['', '/mine', '/people', '/crews']) {
      await page.goto(`${app.address}#/roster${part}`);
      await page.reload();
      await page.locator('html.dark h1').waitFor();
      await page.waitForTimeout(400);
      await redAlone(page);
      expect(await page.locator('input, select, textarea').count(), part).toBe(0);
    }
  }
});

test('nothing went wrong on the way', () => {
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
