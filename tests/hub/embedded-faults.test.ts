import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, expect, test } from 'vitest';
import type { SeasonEvent } from '../../src/core/domain/event.ts';
import type { Database } from '../../src/hub/database/database.ts';
import { EmbeddedDatabase } from '../../src/hub/database/embedded-database.ts';
import { aHub, aProgramme } from './a-hub.ts';
import { embeddedDatabase, embeddedFolder } from './embedded.ts';
import { type Answer, type HubDevice, codeIn, idsOf, invited, joinBy } from './guest.ts';
import { freePort } from './postgres.ts';

const drops: (() => Promise<void>)[] = [];
afterAll(async () => {
  for (const drop of drops) await drop();
});

/** Sends a batch until the hub says that it has it, as a device does on a bad line; tells what was kept each time. */
async function sendUntilHeard(
  device: HubDevice,
  notes: readonly SeasonEvent[],
  isOver: () => boolean,
): Promise<boolean> {
  while (!isOver()) {
    try {
      const { kept, known } = await device.send(notes);
      expect([...kept, ...known].sort()).toEqual(idsOf(notes).sort());
      return true;
    } catch {
      await pause(100);
    }
  }
  return false;
}

const program = ['--import', 'tsx', 'src/cli/main.ts', 'hub'];

async function startProcess(
  folder: string,
  port: number,
): Promise<{ child: ChildProcess; said: string }> {
  const args = [...program, '--data', folder, '--port', String(port)];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'ignore'] });
  let said = '';
  child.stdout.on('data', (part: Buffer) => (said += part.toString()));
  for (let tries = 0; !said.includes('Its record lies in'); tries++) {
    if (child.exitCode !== null || tries > 1200) throw new Error(`the hub did not start: ${said}`);
    await pause(50);
  }
  return { child, said };
}

async function end(child: ChildProcess, signal: 'SIGKILL' | 'SIGTERM'): Promise<number | null> {
  const ended = once(child, 'exit');
  child.kill(signal);
  await ended;
  return child.exitCode;
}

test('a hub that is killed in mid-batch has all that it acknowledged, once, when it is back', async () => {
  const folder = await embeddedFolder();
  drops.push(folder.drop);
  const port = await freePort();
  let { child, said } = await startProcess(folder.path, port);
  const [, address = '', invitation = ''] = /(http:\S+)#\/join\/(\S+)/.exec(said) ?? [];
  const lead = await joinBy(address, invitation, 'Lea');
  const devices = [
    lead,
    await invited(lead, 'sitter', 'Ana'),
    await invited(lead, 'sitter', 'Ben'),
  ];

  let isOver = false;
  const acknowledged: string[] = [];
  const written: string[] = [];
  const writing = devices.map(async (device) => {
    while (!isOver) {
      const notes = Array.from({ length: 40 }, () => device.note());
      written.push(...idsOf(notes));
      // Never given up: what was cut is offered again, as it is.
      if (await sendUntilHeard(device, notes, () => isOver)) acknowledged.push(...idsOf(notes));
    }
  });
  const until = async (more: number): Promise<void> => {
    const enough = acknowledged.length + more;
    while (acknowledged.length < enough) await pause(5);
  };
  await until(800);
  await end(child, 'SIGKILL');
  ({ child, said } = await startProcess(folder.path, port));
  expect(said).not.toContain('#/join/');
  await until(200);
  isOver = true;
  await Promise.all(writing);

  const { ids } = await lead.readAll();
  expect(acknowledged.length).toBeGreaterThan(1000);
  expect(new Set(ids).size).toBe(ids.length);
  expect(acknowledged.filter((id) => !ids.includes(id))).toEqual([]);
  expect(ids.filter((id) => !written.includes(id))).toEqual([]);
  expect(await end(child, 'SIGTERM')).toBe(0);
}, 300_000);

test('a record restored from an older backup is healed by the devices', async () => {
  const folder = await embeddedFolder();
  drops.push(folder.drop);
  const path = join(folder.path, 'database');
  let database = await EmbeddedDatabase.open(path);
  let hub = await aHub(database);
  const { lead } = await aProgramme(database, hub.address);
  const ana = await invited(lead, 'sitter', 'Ana');
  const ben = await invited(lead, 'sitter', 'Ben');
  const [early, late] = [ana, ana].map((device) => Array.from({ length: 5 }, () => device.note()));
  await ana.send(early!);
  const { cursor: beforeBackup } = await ben.readAll();

  await hub.close();
  await database.close();
  cpSync(path, join(folder.path, 'backup'), { recursive: true });
  database = await EmbeddedDatabase.open(path);
  hub = await aHub(database);
  await ana.at(hub.address).send(late!);
  const { cursor } = await ben.at(hub.address).readAll();

  await hub.close();
  await database.close();
  rmSync(path, { recursive: true });
  cpSync(join(folder.path, 'backup'), path, { recursive: true });
  database = await EmbeddedDatabase.open(path);
  hub = await aHub(database);
  const at = (device: HubDevice): HubDevice => device.at(hub.address);
  const isUnknown = async (): Promise<void> => {
    const answer = await at(ben).get(`api/events?after=${cursor}`);
    expect([answer.status, codeIn(answer)]).toEqual([409, 'cursor unknown']);
  };
  await isUnknown();
  // Others have filled the same places with other notes: it is noticed all the same.
  const others = Array.from({ length: 6 }, () => lead.note());
  await at(lead).send(others);
  await isUnknown();
  // A place before the backup still holds; Ben, who had read Ana's late notes, brings them back.
  expect((await at(ben).readAll(beforeBackup)).ids).toEqual(idsOf(others));
  const back = await at(ben).send([], { carried: [...early!, ...late!] });
  expect([back.kept, back.known]).toEqual([idsOf(late!), idsOf(early!)]);
  expect((await at(ana).send(late!)).known).toEqual(idsOf(late!));
  const page = await at(lead).page();
  expect(new Set(idsOf(page.events.map(({ event }) => event)))).toEqual(
    new Set(idsOf([...early!, ...late!, ...others])),
  );
  expect(page.events.every(({ brought_by }) => brought_by === null)).toBe(true);
  await hub.close();
  await database.close();
}, 60_000);

/** A small disk in memory, where that is ours to make; null where not. */
function smallDisk(megabytes: number): string | null {
  if (process.getuid?.() !== 0) return null;
  const path = mkdtempSync(join(tmpdir(), 'firstdark-disk-'));
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', path], {
      stdio: 'pipe',
    });
  } catch {
    rmSync(path, { recursive: true });
    return null;
  }
  drops.push(async () => {
    execFileSync('umount', [path]);
    rmSync(path, { recursive: true });
  });
  return path;
}

const disk = smallDisk(64);

test.skipIf(disk === null)(
  'a hub whose disk is full says so, loses nothing, and goes on when there is space',
  async () => {
    const folder = await embeddedFolder();
    drops.unshift(folder.drop);
    const path = join(disk!, 'database');
    cpSync(join(folder.path, 'database'), path, { recursive: true });
    let database = await EmbeddedDatabase.open(path);
    let hub = await aHub(database);
    const { lead } = await aProgramme(database, hub.address);
    const { bavail, bsize } = statfsSync(disk!);
    writeFileSync(join(disk!, 'filler'), Buffer.alloc(bavail * bsize - 600_000));

    const acknowledged: string[] = [];
    let refusal: Answer | null = null;
    for (let tries = 0; refusal === null && tries < 60; tries++) {
      const notes = Array.from({ length: 50 }, () => lead.note('x'.repeat(500)));
      const answer = await lead.post('api/events', { events: notes });
      if (answer.status === 200) acknowledged.push(...idsOf(notes));
      else refusal = answer;
    }
    expect(refusal).toMatchObject({ status: 503, body: { error: { code: 'full' } } });
    expect((await lead.readAll()).ids).toEqual(acknowledged);

    rmSync(join(disk!, 'filler'));
    const [after] = [lead.note()];
    expect((await lead.send([after])).kept).toEqual([after.id]);
    await hub.close();
    await database.close();
    database = await EmbeddedDatabase.open(path);
    hub = await aHub(database);
    expect((await lead.at(hub.address).readAll()).ids).toEqual([...acknowledged, after.id]);
    await hub.close();
    await database.close();
  },
  60_000,
);

test('a database that fails is said to, by what failed, and what it held is there afterwards', async () => {
  const opened = await embeddedDatabase();
  drops.unshift(opened.drop);
  let failure: object | null = null;
  const real = opened.database;
  const failing: Database = {
    query: (text, parameters) => real.query(text, parameters),
    script: (text) => real.script(text),
    listen: (channel, heard) => real.listen(channel, heard),
    close: () => real.close(),
    transaction: (use) =>
      real.transaction(async (sql) => {
        const value = await use(sql);
        // After the work and before the commit: nothing of it may stay.
        if (failure !== null) throw Object.assign(new Error('invented'), failure);
        return value;
      }),
  };
  const hub = await aHub(failing);
  const { lead } = await aProgramme(real, hub.address);
  const safe = lead.note();
  await lead.send([safe]);
  for (const [code, said] of [
    ['53100', 'full'],
    ['ENOSPC', 'full'],
    ['08006', 'database away'],
    ['57P01', 'database away'],
    ['XX000', 'fault'],
  ]) {
    failure = { code };
    const answer = await lead.post('api/events', { events: [lead.note()] });
    expect([answer.status >= 500, codeIn(answer)]).toEqual([true, said]);
  }
  failure = null;
  expect((await lead.readAll()).ids).toEqual([safe.id]);
  await hub.close();
});
