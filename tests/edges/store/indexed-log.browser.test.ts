import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { build } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Served, serveFolder } from '../../../scripts/serve.mjs';
import { type KillableChromium, startChromium } from './killable-chromium.ts';

let folder = '';
let served: Served;
let browser: KillableChromium;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'firstdark-page-'));
  const site = join(folder, 'site');
  await build({
    configFile: false,
    publicDir: false,
    logLevel: 'error',
    build: {
      outDir: site,
      target: 'es2022',
      lib: {
        entry: join(import.meta.dirname, 'log-page.ts'),
        formats: ['es'],
        fileName: () => 'page.js',
      },
    },
  });
  const html = '<!doctype html><title>log</title><script type="module" src="page.js"></script>';
  await writeFile(join(site, 'index.html'), html);
  served = await serveFolder(site);
  browser = await startChromium(join(folder, 'profile'));
});
afterAll(async () => {
  await browser.kill();
  await served.close();
  await rm(folder, { recursive: true, force: true });
});

async function open(page: Page, store: string, address = served.address): Promise<Page> {
  await page.goto(`${address}?${store}`);
  await page.waitForFunction(() => 'asked' in window);
  return page;
}

const tab = async (store: string): Promise<Page> => open(await browser.context.newPage(), store);

test('the log in a real browser does all that a log must do', async () => {
  const outcomes = await (await tab('cases')).evaluate(() => window.asked.runCases());
  expect(outcomes.filter(([, failed]) => failed !== null)).toEqual([]);
  expect(outcomes.length).toBeGreaterThan(9);
});

test('a second tab hears of a note and has it', async () => {
  const [mine, theirs] = [await tab('two'), await tab('two')];
  await mine.evaluate(() => window.asked.append());
  await theirs.waitForFunction(() => window.asked.heard() > 0);
  expect(await theirs.evaluate(() => window.asked.count())).toBe(1);
});

test('a newer version in a second tab takes over, and the first says to reload', async () => {
  const [mine, theirs] = [await tab('newer'), await tab('newer')];
  await mine.evaluate(() => window.asked.append());
  // The second tab has the older version open too: it makes way for itself.
  expect(await theirs.evaluate(() => window.asked.openAsNewer())).toBe(1);
  expect(await mine.evaluate(() => window.asked.append())).toMatchObject({
    ok: false,
    problem: { kind: 'outdated' },
  });
});

test('a device that is full says so, and what was saved stays', async () => {
  const page = await browser.context.newPage();
  const session = await browser.context.newCDPSession(page);
  // An origin of its own: the browser remembers for a while how much room another had.
  const origin = `http://localhost:${served.port}`;
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 2_000_000 });
  await open(page, 'full', `${origin}/`);
  expect(await page.evaluate(() => window.asked.append())).toEqual({ ok: true, added: 1 });
  const refused = await page.evaluate(() => window.asked.append(150, 40_000));
  expect(refused).toMatchObject({ ok: false, problem: { kind: 'full' } });
  expect(await page.evaluate(() => window.asked.count())).toBe(1);
});

test('a note reported as saved is there after the browser was killed at once', async () => {
  const page = await tab('kill');
  expect(await page.evaluate(() => window.asked.append())).toEqual({ ok: true, added: 1 });
  await browser.kill();
  browser = await startChromium(join(folder, 'profile'));
  expect(await (await tab('kill')).evaluate(() => window.asked.count())).toBe(1);
});
