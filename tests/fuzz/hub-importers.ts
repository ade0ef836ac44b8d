import { HttpHub } from '../../src/edges/hub/http-hub.ts';
import { EventsSent, JoinAsked } from '../../src/hub/http/shapes.ts';
import { readCursor } from '../../src/hub/record/cursor.ts';
import { sortBatch } from '../../src/hub/record/sort-batch.ts';
import { rawOf } from '../../src/core/log/upcast.ts';
import type { Random } from '../../src/core/numerics/random.ts';
import { damaged } from './damage.ts';
import { type Importer, type Outcome, promise } from './importer.ts';
import { someLines } from './record-importers.ts';

const utf8 = new TextEncoder();
const membership = {
  programme: { id: 'p', name: 'Invented beach' },
  person: 'Ada',
  device: 'phone',
  role: 'lead',
  teams: ['north'],
};
const eventsIn = (luck: Random): readonly unknown[] =>
  someLines(luck)
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as unknown);

/** What a hub may answer, by what is asked. */
const answers: Readonly<Record<string, (luck: Random) => unknown>> = {
  send: () => ({
    kept: ['a'],
    known: ['b'],
    refused: [{ id: 'c', code: 'rights', reason: 'not yours', again: true }],
  }),
  after: (luck) => ({
    events: eventsIn(luck).map((event) => ({ event, brought_by: 'Ada' })),
    cursor: 'c2',
    more: false,
    behind: 0,
  }),
  me: () => membership,
  join: () => ({ ...membership, key: 'fdk1_x' }),
  devices: () => [
    {
      id: 'd',
      person: 'Ada',
      label: null,
      role: 'lead',
      teams: [],
      joined: '2026-07-01T00:00:00Z',
      last_seen: null,
      events_sent: 3,
      revoked: null,
    },
  ],
  problem: () => ({ error: { code: 'cursor unknown', message: 'start anew' } }),
};
const questions = Object.keys(answers);

const answered: Importer = {
  name: 'answer of a hub',
  isText: true,
  make: (luck) => {
    const text = JSON.stringify(answers[luck.choice(questions)]?.(luck));
    return luck.chance(0.15) ? utf8.encode(text) : damaged(utf8.encode(text), luck, true);
  },
  read: async (bytes, luck) => {
    const status = luck.choice([200, 200, 200, 200, 201, 301, 400, 401, 409, 413, 429, 500, 503]);
    const headers = luck.choice([
      {},
      { 'firstdark-now': 'never' },
      { 'firstdark-now': '2026-07-01T00:00:00Z', 'retry-after': '1e9' },
      { 'retry-after': '-5' },
    ]);
    let gap = 0;
    const hub = new HttpHub({
      address: 'https://hub.example/',
      key: 'fdk1_x',
      now_ms: () => Date.UTC(2026, 6, 1),
      clockGap: (gap_ms) => void (gap = gap_ms ?? 0),
      fetch: () => Promise.resolve(new Response(new Uint8Array(bytes), { status, headers })),
    });
    const asked = await Promise.all([
      hub.send({ events: [], carried: [] }),
      hub.after(null),
      hub.me(),
      hub.join('i', 'Ada', 'd', 'phone'),
      hub.devices(),
    ]);
    promise(Number.isFinite(gap), () => `the clock is said to be ${gap} ahead`);
    for (const answer of asked) {
      promise(answer.ok || answer.problem.message !== '', () => 'refused without a word');
      const wait = !answer.ok && 'wait_s' in answer.problem ? answer.problem.wait_s : 0;
      promise(wait === undefined || Number.isFinite(wait), () => `wait ${wait} seconds`);
    }
    const page = asked[1];
    if (page.ok) for (const { logged } of page.value.events) JSON.stringify(rawOf(logged));
    return asked.some(({ ok }) => ok) ? 'taken' : 'refused';
  },
};

/** What a device may send to the hub, as far as it is read before the database is asked. */
const sent: Importer = {
  name: 'what is sent to the hub',
  isText: true,
  make: (luck) => {
    const body = luck.chance(0.8)
      ? { events: eventsIn(luck), carried: eventsIn(luck) }
      : { invitation: `fdi1_${'a'.repeat(32)}`, person: 'Ada', device: 'phone', label: null };
    return damaged(utf8.encode(JSON.stringify(body)), luck, true);
  },
  read: (bytes): Outcome => {
    const text = new TextDecoder().decode(bytes);
    readCursor(text.slice(0, 20_000));
    let json: unknown;
    try {
      json = JSON.parse(text);
    } catch {
      return 'refused';
    }
    if (JoinAsked.safeParse(json).success) return 'taken';
    const body = EventsSent.safeParse(json);
    if (!body.success) return 'refused';
    const { events = [], carried = [] } = body.data;
    const sorted = sortBatch({ person: 'Ada', name: 'test' }, events, carried);
    if (!sorted.ok) {
      promise(sorted.no.message !== '', () => 'refused without a word');
      return 'refused';
    }
    const { candidates, refused } = sorted.value;
    const ids = new Set([...events, ...carried].map((event) => (event as { id: unknown }).id));
    const told = new Set([
      ...candidates.map(({ event }) => event.id),
      ...refused.map(({ id }) => id),
    ]);
    promise(told.size === ids.size, () => `${ids.size} sent, ${told.size} answered for`);
    return candidates.length === 0 ? 'refused' : refused.length > 0 ? 'in part' : 'taken';
  },
};

export const hubImporters: readonly Importer[] = [answered, sent];
