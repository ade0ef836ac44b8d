import type { TableName } from '../../domain/event.ts';
import type { Fact } from '../../log/season-record.ts';
import { type Problem, ProblemsOfFile } from '../problem.ts';
import { specOf } from '../tables/all-tables.ts';
import { readTable } from './read-table.ts';
import type { Row } from './row.ts';
import { type Importer, eventOfRow, momentOf } from './row-event.ts';

/** One table read by itself: the facts its good rows tell, and what is wrong with the others. */
export interface SingleTable {
  readonly facts: readonly Fact[];
  readonly problems: readonly Problem[];
}

/**
 * Reads one table that lies by itself, in the order of its rows. Its nests need not be known. `file` is
 * the name that problems are told under; `zone` the IANA zone for times without offset.
 */
export function readSingleTable(
  bytes: Uint8Array,
  file: string,
  table: TableName,
  zone: string,
): SingleTable {
  const spec = specOf(table);
  const problems = new ProblemsOfFile(file);
  const importer: Importer = { zone, author: 'import', device: 'command line' };
  const facts: Fact[] = [];
  const take = (row: Row): void => {
    const findings = spec.check(row.values);
    for (const { severity, column, message } of findings) {
      problems.add(severity, row.source.row, column, message);
    }
    if (findings.some(({ severity }) => severity === 'error')) return;
    facts.push(eventOfRow(row, momentOf(row, zone), importer, 0));
  };
  readTable(bytes, spec, zone, problems, take, () => undefined);
  return { facts, problems: problems.list() };
}
