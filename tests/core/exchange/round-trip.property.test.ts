import fc from 'fast-check';
import { expect, test } from 'vitest';
import { writeCsv } from '../../../src/core/exchange/csv/write-csv.ts';
import { reconcile } from '../../../src/core/exchange/reconcile/reconcile.ts';
import { writeSeasonFolder } from '../../../src/core/exchange/season-folder/write-season-folder.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { arbitrarySeason } from '../../builders/arbitrary-season.ts';
import { importer, read } from '../../builders/season-files.ts';

const folders = arbitrarySeason.map((tables) =>
  Object.fromEntries(Object.entries(tables).map(([file, rows]) => [file, writeCsv(rows, '\n')])),
);
const runs = { numRuns: 150 };

test('a canonical folder comes out of the log to the byte', () => {
  fc.assert(
    fc.property(folders, (folder) => {
      const { events, zone, problems } = read(folder);
      expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      expect(Object.fromEntries(writeSeasonFolder(fold(events, zone), { guard: false }))).toEqual(
        folder,
      );
    }),
    { ...runs, seed: 51 },
  );
});

test('events that went out as a folder come in as the same season, guarded or not', () => {
  fc.assert(
    fc.property(folders, fc.boolean(), (folder, guard) => {
      const once = read(folder);
      const season = fold(once.events, once.zone);
      const twice = read(Object.fromEntries(writeSeasonFolder(season, { guard })));
      const again = fold(twice.events, twice.zone);
      expect([...again.nests.values()].map(({ nest, visits }) => [nest, visits])).toEqual(
        [...season.nests.values()].map(({ nest, visits }) => [nest, visits]),
      );
      const ids = (record: typeof season): readonly string[] =>
        [...record.events.values()]
          .filter(({ kind }) => kind !== 'table-laid-out')
          .map(({ id }) => id)
          .sort();
      expect(ids(again)).toEqual(ids(season));
    }),
    { ...runs, seed: 52 },
  );
});

test('importing the same folder on another day adds nothing', () => {
  fc.assert(
    fc.property(folders, (folder) => {
      const { events, zone } = read(folder);
      const record = fold(events, zone);
      const { events: added } = reconcile(read(folder, record), record, {
        ...importer,
        now_ms: importer.now_ms + 86_400_000,
      });
      expect(added).toEqual([]);
    }),
    { ...runs, seed: 53 },
  );
});
