import type { TableName } from '../../src/core/domain/event.ts';
import { decode } from '../../src/core/exchange/decode.ts';
import { readSingleTable } from '../../src/core/exchange/season-folder/read-single-table.ts';
import {
  type ReadSeason,
  readSeasonFolder,
} from '../../src/core/exchange/season-folder/read-season-folder.ts';
import { tablesInOrder } from '../../src/core/exchange/tables/all-tables.ts';
import { fold } from '../../src/core/log/fold.ts';
import { idNumbered } from '../arbitraries/season-event.ts';
import { importer } from '../builders/season-files.ts';
import { damaged } from './damage.ts';
import { type Importer, type Outcome, promise } from './importer.ts';
import { seasonTexts } from './season-texts.ts';
import { judgeTable } from './table-truth.ts';

const utf8 = new TextEncoder();
const texts = seasonTexts();
const good = new Map([...texts].map(([name, text]) => [name, utf8.encode(text)]));

/** A season folder of which one file is the input and all others are good. */
export function readBeside(name: string, bytes: Uint8Array): ReadSeason {
  return readSeasonFolder(new Map([...good, [name, bytes]]), importer);
}

/** Every table of a season folder, each beside good ones. */
const tables: readonly Importer[] = tablesInOrder.map(({ table }) => ({
  name: `season folder: ${table}.csv`,
  isText: true,
  make: (luck) => damaged(good.get(`${table}.csv`) ?? new Uint8Array(), luck, true),
  read: (bytes) => judgeTable(bytes, table, readBeside(`${table}.csv`, bytes)),
}));

/** A table given by itself to a command. */
const alone: readonly Importer[] = (['orientation', 'inventory'] as const).map((table) => ({
  name: `one table: ${table} FILE.csv`,
  isText: true,
  make: (luck) => damaged(good.get(`${table}.csv`) ?? new Uint8Array(), luck, true),
  read: (bytes) => judgeAlone(bytes, table),
}));

function judgeAlone(bytes: Uint8Array, table: TableName): Outcome {
  const { facts, problems } = readSingleTable(bytes, `${table}.csv`, table, 'UTC');
  const errors = problems.filter(({ severity }) => severity === 'error');
  const named = new Set(errors.map(({ row }) => row));
  const both = facts.find(({ source }) => named.has(source?.row ?? -1));
  promise(both === undefined, () => `row ${both?.source?.row} is taken and refused at once`);
  if (facts.length > 0) return errors.length > 0 ? 'in part' : 'taken';
  return errors.length > 0 ? 'refused' : 'taken';
}

const programme: Importer = {
  name: 'season folder: programme.json',
  isText: true,
  make: (luck) => damaged(good.get('programme.json') ?? new Uint8Array(), luck, true),
  read: (bytes) => {
    const read = readBeside('programme.json', bytes);
    const described = read.events.some(({ kind }) => kind === 'programme-described');
    const told = read.problems.some(({ file }) => file === 'programme.json');
    promise(described !== told, () => `described: ${described}, told: ${told}`);
    fold(read.events, read.zone);
    return described ? 'taken' : 'refused';
  },
};

const envelope = {
  schema: 1,
  at: '2026-07-01T12:00-04:00',
  written: '2026-07-01T12:00-04:00',
  author: 'Ada',
  device: 'test',
};
const pin = { night: '2026-07-20', watch: 'evening', at_nest: 'N-1', volunteer: 'Ada' };
const rosterText = JSON.stringify(
  {
    events: [
      { ...envelope, id: idNumbered(1), kind: 'pinned', details: pin },
      { ...envelope, id: idNumbered(2), kind: 'withdrawn', target: idNumbered(1), reason: 'ill' },
      { ...envelope, id: idNumbered(3), kind: 'pinned', details: { ...pin, volunteer: null } },
    ],
  },
  null,
  1,
);
const roster: Importer = {
  name: 'season folder: roster.json',
  isText: true,
  make: (luck) => damaged(utf8.encode(rosterText), luck, true),
  read: (bytes) => {
    const read = readBeside('roster.json', bytes);
    const told = read.problems.filter(({ file }) => file === 'roster.json');
    const taken = read.events.filter(
      ({ source, kind }) => source === undefined && kind !== 'table-laid-out',
    ).length;
    const inside = listed(bytes);
    promise(
      inside === null ? told.length === 1 : taken + told.length === inside,
      () => `${inside} events inside, ${taken} taken, ${told.length} told`,
    );
    fold(read.events, read.zone);
    return taken === 0 ? 'refused' : told.length > 0 ? 'in part' : 'taken';
  },
};

/** How many events a roster file lists; null when it is none. */
function listed(bytes: Uint8Array): number | null {
  try {
    const json: unknown = JSON.parse(decode(bytes).text);
    if (typeof json !== 'object' || json === null || !('events' in json)) return null;
    return Array.isArray(json.events) ? json.events.length : null;
  } catch {
    return null;
  }
}

export const seasonImporters: readonly Importer[] = [...tables, ...alone, programme, roster];

/** The good text of one file of the season. */
export const seasonText = (name: string): string => texts.get(name) ?? '';
