import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type HubProcess, startHubProcess } from './hub-process.ts';
import { inventedFiles } from './invented-files.ts';
import { type JourneyPage, launch, type OpenApp, readyForOffline } from './in-engine.ts';
import { redAlone } from './red-alone.ts';
import { chanceOf, note, ranking } from './steps.ts';

// Two devices and a hub, all on this machine; the hub serves the app as well.
const evening = '2026-08-20T18:30:00-04:00';
const night = '2026-08-20T22:30:00-04:00';

let folder = '';
let hub: HubProcess;
let app: OpenApp;
let lead: JourneyPage;
let sitter: JourneyPage;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'firstdark-hub-'));
  hub = await startHubProcess(['--port', '0', '--data', join(folder, 'data')]);
  app = await launch({ colorScheme: 'light', startsAt: evening });
  lead = app.page;
  sitter = await app.anotherDevice();
});

afterAll(async () => {
  await app.close();
  await hub.stop();
  await rm(folder, { recursive: true, force: true });
});

const reach = (page: JourneyPage) => page.locator('a.reach span').first();
async function upToDate(page: JourneyPage): Promise<void> {
  await expect.poll(() => reach(page).textContent(), { timeout: 60_000 }).toBe('Up to date');
}

async function joinBy(page: JourneyPage, link: string, name: string): Promise<void> {
  await page.goto(link);
  await page.getByRole('textbox').fill(name);
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.getByRole('button', { name: 'I have read this' }).click();
  await upToDate(page);
}

async function tonight(page: JourneyPage): Promise<void> {
  await page.goto(`${hub.address}#/tonight`);
  await page.locator('.ranking li').first().waitFor({ timeout: 30_000 });
}

test('the first lead joins by the link that the hub printed, and brings in the season', async () => {
  await joinBy(lead, hub.leadLink ?? 'about:blank', 'Ana');
  await lead.getByRole('definition').filter({ hasText: 'Ana, lead' }).waitFor();
  await lead.goto(`${hub.address}#/programme/import`);
  const files = [...inventedFiles(20, 11, evening)];
  await lead.locator('input[type=file][multiple]').first().setInputFiles(files);
  await lead.getByRole('button', { name: 'Take it all' }).click();
  await lead.getByRole('link', { name: 'See tonight’s ranking' }).click();
  await upToDate(lead);
});

test('a sitter joins by an invitation of the lead, and catches up with everything', async () => {
  await lead.goto(`${hub.address}#/programme/devices`);
  await lead.getByRole('button', { name: 'Make an invitation' }).click();
  await lead.getByRole('img', { name: /invitation as a code/ }).waitFor();
  const link = (await lead.locator('.link').textContent()) ?? '';
  expect(new URL(link).pathname).toBe('/');
  await joinBy(sitter, link, 'Ben');
  await sitter.getByText('Ben, sitter', { exact: true }).waitFor();
  await tonight(lead);
  await tonight(sitter);
  await expect.poll(() => ranking(sitter), { timeout: 20_000 }).toEqual(await ranking(lead));
});

test('an invitation that was used says so', async () => {
  const third = await app.anotherDevice();
  await third.goto(hub.leadLink ?? 'about:blank');
  await third.getByRole('textbox').fill('Cem');
  await third.getByRole('button', { name: 'Join', exact: true }).click();
  await expect
    .poll(() => third.getByRole('alert').textContent(), { timeout: 10_000 })
    .toMatch(/used|invitation/i);
  await third.context().close();
});

test('a note made without reception waits, goes out by itself, and moves the nest for the lead', async () => {
  const nest = (await ranking(lead))[3]?.nest ?? '';
  const before = await chanceOf(lead, nest);
  await readyForOffline(sitter);
  await sitter.reload();
  await sitter.locator('.ranking li').first().waitFor();
  await sitter.context().setOffline(true);
  await note(sitter, nest, 'depression', 'steady');
  await expect.poll(() => reach(sitter).textContent()).toBe('1 waiting');
  expect(await chanceOf(lead, nest)).toBe(before);
  await sitter.context().setOffline(false);
  await upToDate(sitter);
  await expect.poll(() => chanceOf(lead, nest), { timeout: 20_000 }).not.toBe(before);
});

test('a hub that is cut off like by a power cut loses nothing, and all go on by themselves', async () => {
  const { port } = new URL(hub.address);
  await tonight(sitter);
  const nests = (await ranking(sitter)).map(({ nest }) => nest);
  await note(sitter, nests[5] ?? '', 'dip', 'quiet');
  await hub.kill();
  await tonight(sitter);
  await note(sitter, nests[6] ?? '', 'caved', 'steady');
  await expect.poll(() => reach(sitter).textContent(), { timeout: 20_000 }).toMatch(/waiting/);
  hub = await startHubProcess(['--port', port, '--data', join(folder, 'data')]);
  expect(hub.leadLink).toBeNull();
  for (const page of [sitter, lead]) {
    await page.goto(`${hub.address}#/programme/devices`);
    await page.getByRole('button', { name: 'Exchange now' }).click();
    await upToDate(page);
  }
  await tonight(lead);
  await tonight(sitter);
  await expect.poll(() => ranking(lead), { timeout: 30_000 }).toEqual(await ranking(sitter));
});

test('the devices’ screen is red alone in the dark, with nothing to type', async () => {
  await sitter.context().clock.setSystemTime(night);
  await sitter.goto(`${hub.address}#/programme/devices`);
  await sitter.reload();
  await sitter.getByText('Ben, sitter', { exact: true }).waitFor();
  expect(await sitter.locator('input, textarea, select').count()).toBe(0);
  await redAlone(sitter, true);
});

test('a phone that is revoked is let in no more, and keeps what it has', async () => {
  await lead.goto(`${hub.address}#/programme/devices`);
  const row = lead.locator('li', { hasText: 'Ben' });
  await row.getByRole('button', { name: /Revoke/ }).click();
  await row.getByRole('button', { name: 'Yes, revoke' }).click();
  await lead.getByText(/Ben’s device is let in no more/).waitFor();
  await sitter.getByRole('button', { name: 'Exchange now' }).click();
  await expect.poll(() => reach(sitter).textContent(), { timeout: 20_000 }).toBe('Shut out');
  await tonight(sitter);
  expect((await ranking(sitter)).length).toBeGreaterThan(0);
});

test('nothing went wrong on the way but what was cut off', () => {
  const unexpected = app.consoleErrors.filter(
    (text) => !/Failed to load resource|ERR_|net::/.test(text),
  );
  expect(unexpected).toEqual([]);
  expect(app.failedRequests.filter((text) => !text.includes(hub.address))).toEqual([]);
});
