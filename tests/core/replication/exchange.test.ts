import { describe, expect, test } from 'vitest';
import { NestId } from '../../../src/core/domain/nest.ts';
import { MemoryLog } from '../../../src/core/log/memory-log.ts';
import { readEvent } from '../../../src/core/log/upcast.ts';
import { correctEvent, noteVisit } from '../../../src/core/log/write-event.ts';
import { type Progress, exchange } from '../../../src/core/replication/exchange.ts';
import { MemoryReplicaShelf } from '../../../src/core/replication/replica-shelf.ts';
import { SimulatedHub } from '../../builders/simulated-hub.ts';

const ana = { person: 'Ana', device: 'phone of Ana' };
const ben = { person: 'Ben', device: 'phone of Ben' };
const start_ms = Date.UTC(2026, 6, 20, 22);
const nest = NestId.parse('W-1');

function writing(index: number, { person, device } = ana) {
  const random = Uint8Array.from({ length: 16 }, (_, i) => (index * 53 + i * 11) % 256);
  return { now_ms: start_ms + index * 60_000, random, author: person, device, zone: 'UTC' };
}
const notes = (count: number, from = 0) =>
  Array.from({ length: count }, (_, i) => noteVisit(nest, { surface: 'dip' }, writing(from + i)));

const device = (identity = ana) => ({
  identity,
  log: new MemoryLog(),
  shelf: new MemoryReplicaShelf(),
});

describe('an exchange with a hub', () => {
  test('sends in batches, says how far it has come, and then has nothing left', async () => {
    const hub = new SimulatedHub();
    const phone = device();
    await phone.log.append(notes(450));
    const told: Progress[] = [];
    const done = await exchange({ ...phone, hub: hub.asReachedBy(ana) }, (at) => told.push(at));
    expect(done).toMatchObject({ problem: null, sent: 450, received: 0, waiting: 0 });
    expect(told.filter(({ phase }) => phase === 'sending').map(({ done: at }) => at)).toEqual([
      0, 200, 400, 450,
    ]);
    const again = await exchange({ ...phone, hub: hub.asReachedBy(ana) });
    expect(again).toMatchObject({ problem: null, sent: 0, received: 0 });
  });

  test('a line that is cut keeps what went through, and the rest waits', async () => {
    const hub = new SimulatedHub();
    const phone = device();
    await phone.log.append(notes(450));
    let asked = 0;
    const weather = () => (++asked === 2 ? ('lost' as const) : ('good' as const));
    const done = await exchange({ ...phone, hub: hub.asReachedBy(ana, weather) });
    expect(done).toMatchObject({ sent: 200, waiting: 250, problem: { kind: 'out of reach' } });
  });

  test('what others wrote goes as carried, and the reader is told who brought it', async () => {
    const hub = new SimulatedHub();
    const phone = device(ben);
    await phone.log.append(notes(1));
    await exchange({ ...phone, hub: hub.asReachedBy(ben) });
    const other = device(ana);
    await exchange({ ...other, hub: hub.asReachedBy(ana) });
    expect([...(await other.shelf.read()).broughtBy.values()]).toEqual(['Ben']);
  });

  test('what is refused for good is not offered again until somebody asks for it', async () => {
    const hub = new SimulatedHub();
    hub.refuse = () => ({ reason: 'A reader writes nothing.', again: false });
    const phone = device();
    await phone.log.append(notes(2));
    const first = await exchange({ ...phone, hub: hub.asReachedBy(ana) });
    expect(first).toMatchObject({ problem: null, sent: 0, waiting: 0 });
    expect(first.refused.map(({ reason }) => reason)).toEqual([
      'A reader writes nothing.',
      'A reader writes nothing.',
    ]);
    hub.refuse = () => null;
    expect(await exchange({ ...phone, hub: hub.asReachedBy(ana) })).toMatchObject({ sent: 0 });
    await phone.shelf.forgetRefusals();
    expect(await exchange({ ...phone, hub: hub.asReachedBy(ana) })).toMatchObject({
      sent: 2,
      refused: [],
    });
  });

  test('what is refused until something else is there is offered again by itself', async () => {
    const hub = new SimulatedHub();
    const phone = device();
    const [note] = notes(1);
    if (note === undefined) throw new Error('no note');
    const later = correctEvent(note.event.id, { surface: 'smooth' }, writing(9));
    await phone.log.append([note, later]);
    let isThere = false;
    hub.refuse = (logged) => {
      if (logged.state === 'known' && logged.event.kind === 'corrected' && !isThere) {
        isThere = true;
        return { reason: 'not on record yet', again: true };
      }
      return null;
    };
    const done = await exchange({ ...phone, hub: hub.asReachedBy(ana) });
    expect(done).toMatchObject({ sent: 2, waiting: 0, refused: [] });
  });

  test('a damaged line stays here and is told; the rest goes', async () => {
    const hub = new SimulatedHub();
    const phone = device();
    await phone.log.append([...notes(1), readEvent({ note: 'torn' })]);
    const done = await exchange({ ...phone, hub: hub.asReachedBy(ana) });
    expect(done).toMatchObject({ problem: null, sent: 1, waiting: 0 });
    expect(done.refused[0]?.reason).toContain('cannot send it');
  });

  test('an event of a newer version is passed on as it lies there', async () => {
    const hub = new SimulatedHub();
    const phone = device();
    const [note] = notes(1);
    const newer = { ...note?.event, schema: 99, colour: 'of later days' };
    await phone.log.append([readEvent(newer)]);
    await exchange({ ...phone, hub: hub.asReachedBy(ana) });
    const other = device(ben);
    await exchange({ ...other, hub: hub.asReachedBy(ben) });
    const read = await other.log.read();
    expect(read).toMatchObject({ ok: true, events: [{ state: 'foreign', raw: newer }] });
  });
});
