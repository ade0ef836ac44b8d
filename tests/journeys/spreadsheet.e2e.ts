import { afterAll, beforeAll, expect, test } from 'vitest';
import { workbook } from '../builders/workbook.ts';
import { launch, type OpenApp } from './in-engine.ts';

// By day: files are picked and texts typed there.
const now = '2026-07-20T15:00:00-04:00';

/** As somebody keeps it: titles, a column of their own, dates that fit both orders, one bad cell. */
const nests = `Playa Larga;;;;;
Temporada 2026;;;;;
Nido;Especie;Fecha de puesta;Sector;Huevos;Estaca
PL-1;Tortuga boba;03/06/2026;Norte;98;roja
PL-2;Boba;05/06/2026;Norte;110;azul
PL-3;Tortuga verde;04/06/2026;Sur;noventa;roja
PL-4;lora;06/06/2026;Sur;95;azul
`;
const picked = (name: string, content: string | Uint8Array) => ({
  name,
  mimeType: 'application/octet-stream',
  buffer: Buffer.from(content),
});
/** 46218 is 2026-07-15, 0.895833 is 21:30; a large sheet beside it that is nothing of ours. */
const book = workbook({
  Visitas: [
    ['Nido', 'Fecha', 'Hora', 'Superficie', 'Sonido'],
    ...[0, 1, 2].map((day) => [
      `PL-${day + 1}`,
      { serial: 46218 + day, shown: 'date' as const },
      { serial: 0.8958333333333334, shown: 'time' as const },
      'Hundimiento',
      'silencio',
    ]),
  ],
  Gastos: [
    ['Concepto', 'Importe'],
    ...Array.from({ length: 10_000 }, (_, row) => [`gasto ${(row * 7919) % 10_007}`, row * 1.37]),
  ],
});

let app: OpenApp;

beforeAll(async () => {
  app = await launch({ colorScheme: 'light', startsAt: now });
});

afterAll(async () => {
  await app.close();
});

const choose = async (name: string, content: string | Uint8Array): Promise<void> => {
  const input = app.page.locator('input[type=file][multiple]').first();
  await input.setInputFiles([picked(name, content)]);
};

test('a messy list of nests in Spanish is matched, and asked only what it cannot tell', async () => {
  const { page } = app;
  await page.goto(app.address);
  await page.getByRole('button', { name: 'Bring my tables' }).click();
  await page.getByRole('button', { name: 'I have read this' }).click();
  await choose('nidos 2026.csv', nests);
  await page.getByRole('heading', { name: 'nidos 2026.csv' }).waitFor();
  expect(await page.getByLabel('This table holds').inputValue()).toBe('nests');
  await page.getByText('2 questions wait for an answer.').waitFor();
  expect(await page.getByRole('button', { name: 'Go on' }).isDisabled()).toBe(true);
  await page.getByRole('button', { name: '3 June 2026' }).click();
  await page.getByLabel('“lora”').selectOption('Lepidochelys olivacea');
  await page.getByText('“noventa”').or(page.getByText('"noventa"')).first().waitFor();
  const first = page.getByRole('region', { name: 'First rows of nidos 2026.csv' });
  expect(await first.locator('tbody tr').first().innerText()).toMatch(
    /4\s+PL-1\s+Caretta caretta\s+2026-06-03\s+Norte\s+98\s+roja/,
  );
  expect(await page.locator('code').allTextContents()).toContain('nidos 2026.csv:6:Huevos');
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByRole('button', { name: 'Take the good rows' }).click();
  await page.getByText('Saved on this device').first().waitFor();
});

test('a table with the same headings is matched as last time', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Bring in more' }).click();
  await choose('nidos junio.csv', nests.replace('noventa', '90'));
  await page.getByText('Matched as you did last time.').waitFor();
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByRole('button', { name: 'Take it all' }).click();
  await page.getByText('Saved on this device: ').waitFor();
});

test('a workbook brings its visits, and what is none of a season is left out', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Bring in more' }).click();
  await choose('libro.xlsx', book);
  await page.getByRole('heading', { name: 'libro.xlsx/Visitas' }).waitFor();
  const held = page.getByLabel('This table holds');
  expect(await held.first().inputValue()).toBe('visits');
  await held.nth(1).selectOption('');
  const rows = page.getByRole('region', { name: 'First rows of libro.xlsx/Visitas' });
  expect(await rows.locator('tbody tr').first().innerText()).toMatch(
    /2\s+PL-1\s+2026-07-15T21:30\s+depression\s+quiet/,
  );
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByRole('button', { name: 'Take it all' }).click();
  await page.getByText('Saved on this device: ').waitFor();
});

test('a pasted table is taken; one that is none is told so', async () => {
  const { page } = app;
  await page.getByRole('button', { name: 'Bring in more' }).click();
  await page.getByLabel('Or paste a table').fill('only words');
  await page.getByRole('button', { name: 'Look at it' }).click();
  await page.getByRole('alert').filter({ hasText: 'This is no table' }).waitFor();
  await page
    .getByLabel('Or paste a table')
    .fill('Fecha\tTemp. arena (°F)\n15/07/2026\t86\n16/07/2026\t87,8\n');
  await page.getByRole('button', { name: 'Look at it' }).click();
  const rows = page.getByRole('region', { name: 'First rows of pasted table.csv' });
  expect(await rows.locator('tbody').innerText()).toMatch(/2026-07-15\s+30\s[^]*2026-07-16\s+31/);
  await page.getByRole('button', { name: 'Go on' }).click();
  await page.getByRole('button', { name: 'Take it all' }).click();
  await page.getByText('Saved on this device: ').waitFor();
});

test('all of it is in the season, and nothing went wrong on the way', async () => {
  const { page } = app;
  await page.goto(`${app.address}#/tonight`);
  await page.getByText('PL-2').first().waitFor();
  expect(app.consoleErrors).toEqual([]);
  expect(app.failedRequests).toEqual([]);
});
