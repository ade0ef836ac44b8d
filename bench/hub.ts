import { randomBytes } from 'node:crypto';
import { readdirSync, statSync } from 'node:fs';
import { get } from 'node:http';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { setTimeout as pause } from 'node:timers/promises';
import { gunzipSync } from 'node:zlib';
import * as z from 'zod';
import { newEventId } from '../src/core/log/event-id.ts';
import type { Database } from '../src/hub/database/database.ts';
import { migrate } from '../src/hub/database/migrate.ts';
import { EmbeddedDatabase } from '../src/hub/database/embedded-database.ts';
import { rows } from '../src/hub/database/rows.ts';
import { ServerDatabase } from '../src/hub/database/server-database.ts';
import { usualLimits } from '../src/hub/http/limits.ts';
import { PageAnswer } from '../src/hub/http/shapes.ts';
import { aHub, aProgramme } from '../tests/hub/a-hub.ts';
import { embeddedFolder } from '../tests/hub/embedded.ts';
import { type HubDevice, invited } from '../tests/hub/guest.ts';
import { PostgresServer } from '../tests/hub/postgres.ts';
import { median } from './measure.ts';

const batch = 50;
/** Events that a client catches up on. */
const longAway = 100_000;
/** How long each number of devices writes, milliseconds. */
const writing_ms = 3000;
const deviceCounts = [1, 10, 100, 500];

/** Programmes of a whole coast, and notes of each: a hundredth part of a season. */
const programmes = 300;
const notesEach = 500;

/**
 * What a hub carries, with the clients in the same process: the figures are lower bounds.
 * `npm run bench -- hub` tries one programme on both databases, `hub coast` many on PostgreSQL.
 */
export async function run(): Promise<void> {
  if (process.argv[3] === 'coast') return onCoast();
  await onEmbedded();
  await onServer();
}

/** Many programmes in one database, each a partition of its own, all writing and reading at once. */
async function onCoast(): Promise<void> {
  const server = await PostgresServer.start(['shared_buffers = 256MB', 'max_wal_size = 2GB']);
  const database = await ServerDatabase.open({ url: server.url() });
  await migrate(database);
  const hub = await aHub(database, { limits: unlimited });
  const size = () => sizeOf(database);
  const opened_ms = performance.now();
  const leads: HubDevice[] = [];
  for (let at = 0; at < programmes; at++)
    leads.push((await aProgramme(database, hub.address)).lead);
  const each_ms = (performance.now() - opened_ms) / programmes;
  console.log(`${programmes} programmes opened, ${each_ms.toFixed(0)} ms each`);

  const before = await size();
  const from_ms = performance.now();
  await Promise.all(
    leads.map(async (lead) => {
      for (let sent = 0; sent < notesEach; sent += batch) await lead.send(notesOf(lead, batch));
    }),
  );
  const took_s = (performance.now() - from_ms) / 1000;
  const notes = programmes * notesEach;
  const perNote = ((await size()) - before) / notes;
  console.log(
    `${notes} notes of ${programmes} programmes at once: ${Math.round(notes / took_s)} a second; ${perNote.toFixed(0)} bytes on disk a note`,
  );

  const read_ms = performance.now();
  await Promise.all(leads.map((lead) => catchUp(lead)));
  const each = (performance.now() - read_ms) / 1000;
  console.log(
    `all of them read theirs at once in ${each.toFixed(1)} s; peak memory of hub and clients together ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`,
  );
  await hub.close();
  await database.close();
  await server.drop();
}

const unlimited = {
  ...usualLimits,
  joins: 1e9,
  perAddress: 1e9,
  perKey: 1e9,
  atOnce: 1000,
  atOncePerKey: 1000,
};

async function sizeOf(database: Database): Promise<number> {
  const Size = z.object({ bytes: z.number() });
  const text = 'select pg_database_size(current_database())::float8 as bytes';
  return (await rows(database, Size, text))[0]?.bytes ?? 0;
}

async function onEmbedded(): Promise<void> {
  const folder = await embeddedFolder();
  const path = join(folder.path, 'database');
  const database = await EmbeddedDatabase.open(path);
  await measureHub('PGlite', database, () => bytesIn(path));
  await database.close();
  await folder.drop();
}

async function onServer(): Promise<void> {
  const server = await PostgresServer.start(['shared_buffers = 256MB', 'max_wal_size = 2GB']);
  const database = await ServerDatabase.open({ url: server.url() });
  await migrate(database);
  await measureHub('PostgreSQL 15', database, () => sizeOf(database));
  await database.close();
  await server.drop();
}

async function measureHub(
  name: string,
  database: Database,
  size: () => Promise<number> | number,
): Promise<void> {
  const hub = await aHub(database, { limits: unlimited });
  const { lead } = await aProgramme(database, hub.address);
  const devices = [lead];
  for (const count of deviceCounts) {
    const more = Array.from({ length: count - devices.length }, (_, at) =>
      invited(lead, 'sitter', `Sitter ${count}-${at}`),
    );
    devices.push(...(await Promise.all(more)));
    const { perSecond, slow_ms, usual_ms } = await write(devices);
    console.log(
      `${name}, ${count} devices: ${perSecond} notes/s acknowledged; a batch took ${usual_ms} ms, 1 in 100 more than ${slow_ms} ms`,
    );
  }

  const { lead: away } = await aProgramme(database, hub.address);
  const before = await size();
  for (let sent = 0; sent < longAway; sent += 500) await away.send(notesOf(away, 500));
  const perNote = ((await size()) - before) / longAway;
  const from_ms = performance.now();
  const caught = await catchUp(away);
  const took_ms = performance.now() - from_ms;
  console.log(
    `${name}: ${longAway} notes read in ${(took_ms / 1000).toFixed(1)} s over ${caught.pages} pages, ${(caught.bytes / 1e6).toFixed(1)} MB on the line compressed; ${perNote.toFixed(0)} bytes on disk a note`,
  );

  const listener = await invited(lead, 'reader', 'Listener');
  const line = await listener.listen();
  await pause(500);
  const delays_ms: number[] = [];
  let { cursor } = await listener.readAll();
  for (let sent = 0; sent < 20; sent++) {
    const heard = line.heard();
    const sent_ms = performance.now();
    await lead.send(notesOf(lead, 1));
    while (line.heard() === heard) await pause(1);
    ({ cursor } = await listener.page(cursor));
    delays_ms.push(performance.now() - sent_ms);
    await pause(320);
  }
  line.stop();
  const worst_ms = Math.max(...delays_ms).toFixed(0);
  console.log(
    `${name}: from one device to another ${median(delays_ms).toFixed(0)} ms, at most ${worst_ms} ms; peak memory of hub and clients together ${(process.resourceUsage().maxRSS / 1024).toFixed(0)} MB`,
  );
  await hub.close();
}

/** Lets all devices write for a while, each waiting for its answer before it goes on. */
async function write(devices: readonly HubDevice[]) {
  const until_ms = performance.now() + writing_ms;
  const times_ms: number[] = [];
  let kept = 0;
  const from_ms = performance.now();
  await Promise.all(
    devices.map(async (device) => {
      while (performance.now() < until_ms) {
        const notes = notesOf(device, batch);
        const asked_ms = performance.now();
        const receipt = await device.send(notes);
        kept += receipt.kept.length;
        times_ms.push(performance.now() - asked_ms);
      }
    }),
  );
  const took_s = (performance.now() - from_ms) / 1000;
  times_ms.sort((a, b) => a - b);
  return {
    perSecond: Math.round(kept / took_s),
    usual_ms: Math.round(median(times_ms)),
    slow_ms: Math.round(times_ms[Math.floor(times_ms.length * 0.99)] ?? 0),
  };
}

/** Notes as they come from a beach, about 300 bytes of JSON each; copies, so that writing them costs little. */
function notesOf(device: HubDevice, count: number) {
  const note = device.note('still; sand dry, a little wind from the sea');
  return Array.from({ length: count }, () => ({
    ...note,
    id: newEventId(Date.now(), randomBytes(16)),
  }));
}

/** Reads all pages as a client does, compressed on the line. */
async function catchUp(device: HubDevice): Promise<{ pages: number; bytes: number }> {
  let pages = 0;
  let bytes = 0;
  for (let cursor: string | null = null; ;) {
    const packed = await packedPage(device, cursor);
    bytes += packed.length;
    pages += 1;
    const page = PageAnswer.parse(JSON.parse(gunzipSync(packed).toString()));
    cursor = page.cursor;
    if (!page.more) return { pages, bytes };
  }
}

function packedPage(device: HubDevice, cursor: string | null): Promise<Buffer> {
  const query = cursor === null ? '' : `?after=${cursor}`;
  const headers = { authorization: `Bearer ${device.key}`, 'accept-encoding': 'gzip' };
  return new Promise((settle, fail) => {
    get(`${device.address}api/events${query}`, { headers }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () => settle(Buffer.concat(parts)));
    }).on('error', fail);
  });
}

function bytesIn(folder: string): number {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && !entry.parentPath.includes('pg_wal'))
    .reduce((sum, entry) => sum + statSync(join(entry.parentPath, entry.name)).size, 0);
}
