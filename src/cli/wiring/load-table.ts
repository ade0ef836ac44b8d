import { basename, dirname, join } from 'node:path';
import type { TableName } from '../../core/domain/event.ts';
import type { Programme } from '../../core/domain/programme.ts';
import type { Problem } from '../../core/exchange/problem.ts';
import { PROGRAMME_FILE, readProgramme } from '../../core/exchange/season-folder/programme-file.ts';
import { readSingleTable } from '../../core/exchange/season-folder/read-single-table.ts';
import type { Fact, FactOf } from '../../core/log/season-record.ts';
import { readBytes } from '../../edges/disk/one-file.ts';

/** A table that lies by itself, and the programme it belongs to when `programme.json` lies beside it. */
export interface LoadedTable<Kind extends Fact['kind']> {
  readonly facts: readonly FactOf<Kind>[];
  readonly problems: readonly Problem[];
  readonly programme: Programme;
}

/** The events that each table tells. */
const kinds = {
  nests: 'nest-registered',
  orientation: 'orientation-recorded',
  inventory: 'inventory-recorded',
} as const satisfies Partial<Record<TableName, Fact['kind']>>;

/** Reads one table of its own. A file that cannot be opened is an error in `problems`. */
export async function loadTable<Table extends keyof typeof kinds>(
  path: string,
  table: Table,
  zone: string,
): Promise<LoadedTable<(typeof kinds)[Table]>> {
  const file = basename(path);
  const programme = await programmeBeside(path);
  const read = await readBytes(path);
  if (!read.ok) {
    const problem: Problem = {
      file,
      row: 0,
      column: '',
      message: read.message,
      severity: 'error',
    };
    return { facts: [], problems: [problem], programme };
  }
  const { facts, problems } = readSingleTable(read.bytes, file, table, programme.time_zone ?? zone);
  const kind = kinds[table];
  const isOfTable = (fact: Fact): fact is FactOf<(typeof kinds)[Table]> => fact.kind === kind;
  return { facts: facts.filter(isOfTable), problems, programme };
}

/** Eggs at laying by nest, from `nests.csv` beside a table; empty when there is none. */
export async function clutchesBeside(
  path: string,
  zone: string,
): Promise<ReadonlyMap<string, number>> {
  const clutches = new Map<string, number>();
  const read = await readBytes(join(dirname(path), 'nests.csv'));
  if (!read.ok) return clutches;
  for (const fact of readSingleTable(read.bytes, 'nests.csv', 'nests', zone).facts) {
    if (fact.kind === 'nest-registered' && typeof fact.details.clutch === 'number') {
      clutches.set(fact.nest, fact.details.clutch);
    }
  }
  return clutches;
}

/** The programme beside a table; one that is not there or not readable says nothing. */
async function programmeBeside(path: string): Promise<Programme> {
  const read = await readBytes(join(dirname(path), PROGRAMME_FILE));
  if (!read.ok) return {};
  const found = readProgramme(read.bytes);
  return found.ok ? found.programme : {};
}
