import { afterAll, beforeAll, expect, test } from 'vitest';
import type { SeasonEvent } from '../../src/core/domain/event.ts';
import { NestId } from '../../src/core/domain/nest.ts';
import { fold } from '../../src/core/log/fold.ts';
import { MemoryLog } from '../../src/core/log/memory-log.ts';
import { correctEvent, noteVisit, writeEvent } from '../../src/core/log/write-event.ts';
import { exchange } from '../../src/core/replication/exchange.ts';
import type { Identity } from '../../src/core/replication/hub.ts';
import { MemoryReplicaShelf } from '../../src/core/replication/replica-shelf.ts';
import type { RunningHub } from '../../src/hub/start-hub.ts';
import { HttpHub } from '../../src/edges/hub/http-hub.ts';
import { type BadLine, type Fate, badLine } from './bad-line.ts';
import { aHub, aProgramme, leadInvitation } from './a-hub.ts';
import { embeddedDatabase } from './embedded.ts';

const devices = 20;
const nights = 30;
const notesANight = 4;
const start_ms = Date.UTC(2026, 6, 1, 22);
const day_ms = 86_400_000;
const fates: readonly Fate[] = ['through', 'lost', 'slow', 'answer lost', 'twice', 'answer cut'];

/** Numbers from 0 to 1 that are the same in every run (Park and Miller 1988). */
function luck(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

interface Phone {
  readonly identity: Identity;
  readonly log: MemoryLog;
  readonly hub: HttpHub;
  shelf: MemoryReplicaShelf;
}

let held: Awaited<ReturnType<typeof embeddedDatabase>>;
let hub: RunningHub;
let line: BadLine;

beforeAll(async () => {
  held = await embeddedDatabase();
  hub = await aHub(held.database);
  line = await badLine(hub.address);
});

afterAll(async () => {
  await line.close();
  await hub.close();
  await held.drop();
});

async function joined(programme: string, number: number): Promise<Phone> {
  const invitation = await leadInvitation(held.database, programme);
  const person = `Sitter ${number}`;
  const asGuest = new HttpHub({ address: hub.address, key: null, now_ms: () => Date.now() });
  const answer = await asGuest.join(invitation, person, `phone ${number}`, 'phone');
  if (!answer.ok) throw new Error(answer.problem.message);
  const { key, device } = answer.value;
  return {
    identity: { person, device },
    log: new MemoryLog(),
    hub: new HttpHub({ address: line.address, key, now_ms: () => Date.now() }),
    shelf: new MemoryReplicaShelf(),
  };
}

/** A month of notes on a phone that nobody hears from, some of them corrected. */
async function noteForAMonth(phone: Phone, number: number): Promise<readonly SeasonEvent[]> {
  const next = luck(number + 1);
  const nest = NestId.parse(`W-${number + 1}`);
  const { person: author, device } = phone.identity;
  const writing = (now_ms: number) => ({
    now_ms,
    random: Uint8Array.from({ length: 16 }, () => Math.floor(next() * 256)),
    author,
    device,
    zone: 'UTC',
  });
  const details = { species: 'Caretta caretta' } as const;
  const events = [writeEvent({ kind: 'nest-registered', nest, details }, writing(start_ms)).event];
  for (let night = 0; night < nights; night++) {
    for (let look = 0; look < notesANight; look++) {
      const at_ms = start_ms + night * day_ms + look * 1_200_000;
      const note = noteVisit(nest, { surface: 'dip' }, writing(at_ms)).event;
      events.push(note);
      if (next() < 0.1) {
        events.push(correctEvent(note.id, { surface: 'smooth' }, writing(at_ms + 60_000)).event);
      }
    }
  }
  await phone.log.append(events.map((event) => ({ state: 'known', event })));
  return events;
}

async function recordOf({ log }: Phone): Promise<readonly SeasonEvent[]> {
  const read = await log.read();
  if (!read.ok) throw new Error(read.problem.message);
  return read.events.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
}

test('twenty phones apart for a month come together over a bad line: every note in each, once', async () => {
  const { id } = await aProgramme(held.database, hub.address);
  const phones: Phone[] = [];
  const saved = new Set<string>();
  for (let number = 0; number < devices; number++) {
    const phone = await joined(id, number);
    phones.push(phone);
    for (const event of await noteForAMonth(phone, number)) saved.add(event.id);
  }
  const next = luck(20_260_701);
  const counts = new Map<Fate, number>();
  line.fate = () => {
    // Two in five requests meet with something.
    const fate = next() < 0.6 ? 'through' : (fates[Math.floor(next() * fates.length)] ?? 'through');
    counts.set(fate, (counts.get(fate) ?? 0) + 1);
    return fate;
  };
  const untilDone = async (phone: Phone, number: number): Promise<void> => {
    for (let attempt = 0; attempt < 60; attempt++) {
      const done = await exchange(phone);
      if (done.problem === null) return;
      // Now and then an app is closed in the middle and has forgotten how far it was.
      if (attempt % 7 === number % 7) phone.shelf = new MemoryReplicaShelf();
    }
    throw new Error(`${phone.identity.person} never came through`);
  };
  // All at once, as after a storm; then once more, to hear of the others.
  await Promise.all(phones.map(untilDone));
  await Promise.all(phones.map(untilDone));
  for (const fate of fates) expect(counts.get(fate), fate).toBeGreaterThan(0);

  const [first, ...others] = await Promise.all(phones.map(recordOf));
  if (first === undefined) throw new Error('no phone');
  expect(first).toHaveLength(saved.size);
  expect(new Set(first.map(({ id: event }) => event))).toEqual(saved);
  const season = { ...fold(first), events: null };
  expect(season.nests.size).toBe(devices);
  for (const record of others) {
    expect(record).toHaveLength(saved.size);
    expect({ ...fold(record), events: null }).toEqual(season);
  }
});
