import { randomBytes } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import type { Page } from 'playwright-core';
import { ensureBuilt } from '../scripts/build.mjs';
import type { SeasonEvent } from '../src/core/domain/event.ts';
import { NestDetails, NestId } from '../src/core/domain/nest.ts';
import { type EventBody, writeEvent } from '../src/core/log/write-event.ts';
import { HttpHub } from '../src/edges/hub/http-hub.ts';
import { readInvitation } from '../src/edges/hub/invitation-link.ts';
import { startHubProcess } from '../tests/journeys/hub-process.ts';
import { launch } from '../tests/journeys/launch.ts';
import { median } from './measure.ts';

const nests = 1000;
const inBatch = 200;
const delays = 10;
const now_ms = (): number => Date.now();

/**
 * A browser that catches up with a long season through a hub, and how long a note takes from one
 * device to the other; hub, browsers and this program share the machine.
 * `npm run bench -- hub-browser [NOTES]`
 */
export async function run(): Promise<void> {
  const notes = process.argv[3] ?? '100000';
  ensureBuilt();
  const folder = await mkdtemp(join(tmpdir(), 'firstdark-bench-'));
  const hub = await startHubProcess(['--port', '0', '--data', join(folder, 'data')]);
  const app = await launch({ colorScheme: 'light' });
  try {
    const lead = await joined(hub.address, hub.leadLink ?? '');
    const sent_s = await fill(lead, Number(notes));
    console.log(`${notes} notes of ${nests} nests sent by one device in ${sent_s.toFixed(1)} s`);

    const began = performance.now();
    await joinBy(app.page, await invitation(lead), 'Ben');
    console.log(`caught up in a browser in ${((performance.now() - began) / 1000).toFixed(1)} s`);
    const heap = await app.page.evaluate(() => {
      const memory: unknown = Reflect.get(performance, 'memory');
      return memory instanceof Object ? Number(Reflect.get(memory, 'usedJSHeapSize')) : 0;
    });
    console.log(
      `memory of the page by Chromium's own rounded figure ${Math.round(heap / 2 ** 20)} MB`,
    );

    const taken: number[] = [];
    for (let turn = 0; turn < delays; turn++) {
      const before = await entriesOn(app.page, hub.address);
      const from = performance.now();
      await send(lead, [noteOf(lead, turn)]);
      while ((await entriesOn(app.page, hub.address)) === before) await app.page.waitForTimeout(10);
      taken.push(performance.now() - from);
    }
    const most = Math.max(...taken);
    console.log(
      `a note on the other screen after ${Math.round(median(taken))} ms (most ${Math.round(most)} ms)`,
    );
  } finally {
    await app.close();
    await hub.stop();
    await rm(folder, { recursive: true, force: true });
  }
}

interface Lead {
  readonly hub: HttpHub;
  readonly person: string;
  readonly device: string;
}

async function joined(address: string, link: string): Promise<Lead> {
  const device = 'bench';
  const guest = new HttpHub({ address, key: null, now_ms });
  const answer = await guest.join(readInvitation(link) ?? '', 'Ana', device, 'bench');
  if (!answer.ok) throw new Error(answer.problem.message);
  return { hub: new HttpHub({ address, key: answer.value.key, now_ms }), person: 'Ana', device };
}

async function invitation({ hub }: Lead): Promise<string> {
  const answer = await hub.invite('sitter', [], null, 1);
  if (!answer.ok) throw new Error(answer.problem.message);
  return answer.value.link;
}

/** Nests, and notes on them over thirty evenings. Gives the seconds that sending took. */
async function fill(lead: Lead, notes: number): Promise<number> {
  const events: SeasonEvent[] = [];
  for (let nest = 0; nest < nests; nest++) {
    const details = NestDetails.parse({ species: 'Caretta caretta', lay_night: '2026-06-01' });
    events.push(written(lead, { kind: 'nest-registered', nest: nestAt(nest), details }, 0));
  }
  for (let note = 0; note < notes; note++) events.push(noteOf(lead, note));
  const began = performance.now();
  for (let at = 0; at < events.length; at += inBatch) {
    await send(lead, events.slice(at, at + inBatch));
  }
  return (performance.now() - began) / 1000;
}

async function send({ hub }: Lead, events: readonly SeasonEvent[]): Promise<void> {
  for (;;) {
    const answer = await hub.send({ events, carried: [] });
    if (answer.ok && answer.value.refused.length === 0) return;
    if (answer.ok) throw new Error(answer.value.refused[0]?.reason);
    if (answer.problem.kind !== 'busy') throw new Error(answer.problem.message);
    await new Promise((settle) => setTimeout(settle, (answer.problem.wait_s ?? 1) * 1000));
  }
}

const nestAt = (number: number): NestId => NestId.parse(`B-${number + 1}`);
const start_ms = Date.UTC(2026, 6, 1, 22);

function noteOf(lead: Lead, number: number): SeasonEvent {
  const body = {
    kind: 'visit-noted',
    nest: nestAt(number % nests),
    details: { surface: 'smooth', sound: 'quiet', observer: 'Ana' },
  } as const;
  return written(lead, body, Math.floor(number / nests) * 3_600_000);
}

function written({ person, device }: Lead, body: EventBody, after_ms: number): SeasonEvent {
  return writeEvent(body, {
    now_ms: start_ms + after_ms,
    random: randomBytes(16),
    author: person,
    device,
    zone: 'UTC',
  }).event;
}

async function joinBy(page: Page, link: string, name: string): Promise<void> {
  await page.goto(link);
  await page.getByRole('textbox').fill(name);
  await page.getByRole('button', { name: 'Join', exact: true }).click();
  await page.getByRole('button', { name: 'I have read this' }).click();
  await page.getByText('Up to date', { exact: true }).waitFor({ timeout: 600_000 });
}

async function entriesOn(page: Page, address: string): Promise<string> {
  if (!page.url().endsWith('#/programme')) await page.goto(`${address}#/programme`);
  return page.getByText(/\d+ nests, \d+ entries/).innerText();
}
