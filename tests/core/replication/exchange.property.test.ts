import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { SeasonEvent } from '../../../src/core/domain/event.ts';
import { NestId } from '../../../src/core/domain/nest.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { MemoryLog } from '../../../src/core/log/memory-log.ts';
import { noteVisit } from '../../../src/core/log/write-event.ts';
import { exchange } from '../../../src/core/replication/exchange.ts';
import { MemoryReplicaShelf } from '../../../src/core/replication/replica-shelf.ts';
import { SimulatedHub } from '../../builders/simulated-hub.ts';

const people = ['Ana', 'Ben', 'Cem', 'Dua'];
const nest = NestId.parse('W-1');

/** What happens to one device, by its number. */
const happening = fc.oneof(
  { weight: 4, arbitrary: fc.record({ what: fc.constant('note' as const), device: fc.nat(3) }) },
  {
    weight: 4,
    arbitrary: fc.record({
      what: fc.constant('exchange' as const),
      device: fc.nat(3),
      weather: fc.array(fc.constantFrom('good', 'lost', 'answer lost', 'twice'), {
        minLength: 1,
        maxLength: 12,
      }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      what: fc.constant('backup' as const),
      keeps: fc.double({ min: 0, max: 1, noNaN: true }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ what: fc.constant('memory lost' as const), device: fc.nat(3) }),
  },
);

interface Device {
  readonly log: MemoryLog;
  shelf: MemoryReplicaShelf;
  readonly identity: { readonly person: string; readonly device: string };
}

const eventsOf = async (log: MemoryLog): Promise<readonly SeasonEvent[]> => {
  const read = await log.read();
  if (!read.ok) throw new Error(read.problem.message);
  return read.events.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
};

/** The season of a record, its events as the set they are. */
const plain = (events: readonly SeasonEvent[]) => ({ ...fold(events), events: null });

test('whatever the line does, every note that was saved is in every record at the end, once', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(happening, { maxLength: 40 }), async (story) => {
      const hub = new SimulatedHub();
      const devices: Device[] = people.map((person) => ({
        log: new MemoryLog(),
        shelf: new MemoryReplicaShelf(),
        identity: { person, device: `phone of ${person}` },
      }));
      const saved = new Set<string>();
      let now_ms = Date.UTC(2026, 6, 20, 22);
      for (const event of story) {
        if (event.what === 'backup') {
          hub.restoreBackup(Math.floor(hub.rows.length * event.keeps));
          continue;
        }
        const device = devices[event.device];
        if (device === undefined) throw new Error('no such device');
        if (event.what === 'memory lost') {
          device.shelf = new MemoryReplicaShelf();
        } else if (event.what === 'note') {
          now_ms += 60_000;
          const { person: author, device: name } = device.identity;
          const random = Uint8Array.from({ length: 16 }, (_, i) => (saved.size * 31 + i * 7) % 256);
          const writing = { now_ms, random, author, device: name, zone: 'UTC' };
          const note = noteVisit(nest, { sound: 'steady' }, writing);
          await device.log.append([note]);
          saved.add(note.event.id);
        } else {
          const weather = [...event.weather];
          await exchange({
            ...device,
            hub: hub.asReachedBy(device.identity, () => weather.shift() ?? 'lost'),
          });
        }
      }
      // In the end everybody has reception: once to bring what is missing, once to hear of it.
      for (const device of [...devices, ...devices]) {
        const done = await exchange({ ...device, hub: hub.asReachedBy(device.identity) });
        expect(done).toMatchObject({ problem: null, waiting: 0, refused: [] });
      }
      const records = await Promise.all(devices.map(({ log }) => eventsOf(log)));
      for (const record of records) {
        expect(new Set(record.map(({ id }) => id))).toEqual(saved);
        expect(record).toHaveLength(saved.size);
        expect(plain(record)).toEqual(plain(records[0] ?? []));
      }
      expect(hub.rows).toHaveLength(saved.size);
    }),
    { seed: 20260720, numRuns: 150 },
  );
});
