import { spawn } from 'node:child_process';
import { readFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { gzipSync } from 'node:zlib';
import type { CDPSession, Page } from 'playwright-core';
import * as z from 'zod';
import { DIST, ensureBuilt } from '../scripts/build.mjs';
import { findChromium } from '../scripts/chromium.mjs';
import { serveFolder } from '../scripts/serve.mjs';
import { inventedFiles } from '../tests/journeys/invented-files.ts';
import { launch, type Launched } from '../tests/journeys/launch.ts';
import { openInvented, ranking } from '../tests/journeys/steps.ts';
import { median } from './measure.ts';

const nests = 1000;
const now = '2026-08-20T15:00:00-04:00';
/** As design has it: a phone of the middle, about a quarter as fast as a small server. */
const slowdown = 4;
const turns = 5;
const lighthouse = 'lighthouse@12.2.3';

/**
 * How the built app behaves on a slow phone: bytes before the first screen, time to the ranking with
 * a long season on the device, the longest task while a note is made, what runs when nobody looks.
 * `npm run bench -- app`; `npm run bench -- app lighthouse` asks Lighthouse 12.2.3, fetched by npx.
 */
export async function run(): Promise<void> {
  ensureBuilt();
  if (process.argv[3] === 'lighthouse') return askLighthouse();
  await firstVisit();
  await longSeason();
}

async function firstVisit(): Promise<void> {
  const app = await launch({ colorScheme: 'light', startsAt: now });
  const bytes = new Map<string, number>();
  app.page.on('response', (response) => {
    const { pathname } = new URL(response.url());
    if (response.request().serviceWorker() !== null) return;
    const kind =
      /\.(js|css|html|woff2)$/.exec(pathname)?.[1] ?? (pathname === '/' ? 'html' : 'rest');
    const file = pathname === '/' ? 'index.html' : pathname;
    bytes.set(kind, (bytes.get(kind) ?? 0) + gzipSync(readFileSync(join(DIST, file))).length);
  });
  const slow = await slowed(app.page);
  const from_ms = performance.now();
  await app.page.goto(app.address);
  await app.page.getByRole('heading', { name: 'Firstdark' }).waitFor();
  const shown_ms = performance.now() - from_ms;
  await app.page.waitForLoadState('networkidle');
  const told = [...bytes]
    .map(([kind, size]) => `${kind} ${(size / 1000).toFixed(1)} kB`)
    .join(', ');
  console.log(`before the first screen, compressed: ${told}`);
  console.log(`first screen after ${shown_ms.toFixed(0)} ms, ${slowdown} times slowed down`);
  await slow.detach();

  await openInvented(app.page, app.address);
  for (const isHidden of [false, true]) {
    if (isHidden) await hide(app.page);
    const busy = await busyShare(app.page, 20);
    console.log(
      `nobody touches it, ${isHidden ? 'hidden' : 'seen'}: the page’s thread is busy ${(busy * 100).toFixed(2)} % of the time`,
    );
  }
  await app.close();
}

async function longSeason(): Promise<void> {
  const app = await launch({ colorScheme: 'light', startsAt: now });
  const { page } = app;
  page.setDefaultTimeout(600_000);
  await bringInLong(app);
  const entries = await page.evaluate(() => document.body.innerText.length);
  if (entries === 0) throw new Error('The page is empty.');

  for (const rate of [1, slowdown]) {
    const [glanced, taken]: [number[], number[]] = [[], []];
    for (let turn = 0; turn < turns; turn++) {
      const slow = await slowed(page, rate);
      const from_ms = performance.now();
      await page.reload({ waitUntil: 'commit' });
      await page.locator('.glance li').first().waitFor();
      glanced.push(performance.now() - from_ms);
      await page.locator('.ranking li').first().waitFor();
      taken.push(performance.now() - from_ms);
      await slow.detach();
      await page.waitForTimeout(3000);
    }
    for (const [what, times] of [
      ['the ranking as it stood last', glanced],
      ['the ranking of now', taken],
    ] as const) {
      console.log(
        `${what} on the screen after ${median(times).toFixed(0)} ms, most ${Math.max(...times).toFixed(0)} ms, ${rate} times slowed down`,
      );
    }
  }

  const slow = await slowed(page);
  const nest = (await ranking(page))[0]?.nest ?? '';
  await page.goto(`${app.address}#/note/${nest}`);
  await page.getByRole('heading', { name: 'Note' }).waitFor();
  const nobody = page.getByRole('button', { name: /without (a )?name/i });
  if (await nobody.isVisible()) await nobody.click();
  await page.getByRole('button', { name: /^dip/ }).first().waitFor();
  await page.evaluate(() => {
    const tasks_ms: number[] = [];
    Object.assign(window, { tasks_ms });
    new PerformanceObserver((list) => {
      for (const { duration } of list.getEntries()) tasks_ms.push(duration);
    }).observe({ type: 'longtask' });
  });
  const from_ms = performance.now();
  await page.getByRole('button', { name: /^dip/ }).first().click();
  await page
    .getByRole('button', { name: /^quiet/ })
    .first()
    .click();
  await page.getByText('Saved on this device').first().waitFor();
  const saved_ms = performance.now() - from_ms;
  await page.waitForTimeout(8000);
  const tasks = await page.evaluate(() => (window as unknown as { tasks_ms: number[] }).tasks_ms);
  console.log(
    `a note of two taps is on the device after ${saved_ms.toFixed(0)} ms; tasks over 50 ms from the first tap on: ${tasks.length === 0 ? 'none' : tasks.map((task) => `${task.toFixed(0)} ms`).join(', ')}; ${slowdown} times slowed down`,
  );
  await slow.detach();
  await app.close();
}

async function bringInLong({ page, address }: Launched): Promise<void> {
  const files = [...inventedFiles(nests, 11, now)];
  const notes = files
    .find(({ name }) => name === 'visits.csv')
    ?.buffer.toString()
    .split('\n').length;
  await page.goto(address);
  await page.getByRole('button', { name: 'Bring my tables' }).click();
  await page.getByRole('button', { name: 'I have read this' }).click();
  await page.locator('input[type=file][multiple]').first().setInputFiles(files);
  const from_ms = performance.now();
  await page.getByRole('button', { name: 'Take it all' }).click();
  await page.getByRole('link', { name: 'See tonight’s ranking' }).click();
  console.log(
    `${nests} nests and ${notes ?? 0} notes taken in after ${((performance.now() - from_ms) / 1000).toFixed(1)} s`,
  );
  await page.locator('.ranking li').first().waitFor();
  await page.waitForTimeout(10_000);
}

async function slowed(page: Page, rate = slowdown): Promise<CDPSession> {
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate });
  return session;
}

/** The share of some seconds in which the page’s own thread works. */
async function busyShare(page: Page, seconds: number): Promise<number> {
  await page.waitForTimeout(5000);
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const worked = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0;
  };
  const before = await worked();
  await page.waitForTimeout(seconds * 1000);
  return ((await worked()) - before) / seconds;
}

/** As if another app were in front. */
async function hide(page: Page): Promise<void> {
  await page.evaluate(() => {
    Object.defineProperties(document, {
      hidden: { value: true, configurable: true },
      visibilityState: { value: 'hidden', configurable: true },
    });
    document.dispatchEvent(new Event('visibilitychange'));
  });
}

const Scores = z.object({
  categories: z.record(z.string(), z.object({ title: z.string(), score: z.number().nullable() })),
  audits: z.record(
    z.string(),
    z.object({
      title: z.string(),
      score: z.number().nullable(),
      displayValue: z.optional(z.string()),
    }),
  ),
});

/** Lighthouse’s own judgement, of its phone with its slow line; what is not at its best is named. */
async function askLighthouse(): Promise<void> {
  const served = await serveFolder(DIST);
  const folder = mkdtempSync(join(tmpdir(), 'firstdark-lighthouse-'));
  const report = join(folder, 'report.json');
  try {
    await lighthouseRun(served.address, report);
    const { categories, audits } = Scores.parse(JSON.parse(readFileSync(report, 'utf8')));
    for (const { title, score } of Object.values(categories)) {
      console.log(`${title}: ${Math.round((score ?? 0) * 100)}`);
    }
    for (const { title, score, displayValue } of Object.values(audits)) {
      if (score !== null && score < 0.9) console.log(`  ${title}: ${displayValue ?? score}`);
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
    await served.close();
  }
}

function lighthouseRun(address: string, report: string): Promise<void> {
  const flags = [
    '--output=json',
    `--output-path=${report}`,
    '--only-categories=performance,accessibility,best-practices',
    '--chrome-flags=--headless=new --no-sandbox --disable-gpu',
    '--no-enable-error-reporting',
    '--quiet',
  ];
  return new Promise((settle, fail) => {
    const child = spawn('npx', ['--yes', lighthouse, address, ...flags], {
      stdio: 'inherit',
      env: { ...process.env, CHROME_PATH: findChromium() ?? undefined },
    });
    child.on('error', fail);
    child.on('exit', (code) => {
      if (code === 0) settle();
      else fail(new Error(`${lighthouse} ended with ${code}.`));
    });
  });
}
