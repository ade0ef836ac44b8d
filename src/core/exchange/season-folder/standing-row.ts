import type { Source, TableName } from '../../domain/event.ts';
import type { Fact, SeasonRecord, Standing } from '../../log/season-record.ts';
import type { CellValue } from '../cells/cell.ts';
import type { RowValues } from '../tables/table-spec.ts';

/** What stands in a record as the row of a table that it makes. */
export interface StandingRow {
  readonly standing: Standing;
  readonly values: RowValues;
  /** Cell texts and carried columns of the imports it came by; a later one adds to an earlier one. */
  readonly source: Pick<Source, 'text' | 'extra'>;
  /** Row in the table it was first read from; null when it came by no table. */
  readonly row: number | null;
}

/** The table that a fact is a row of; null for what has no table. */
export function tableOf(fact: Fact): TableName | null {
  switch (fact.kind) {
    case 'nest-registered':
      return 'nests';
    case 'visit-noted':
      return 'visits';
    case 'conditions-noted':
      return 'conditions';
    case 'volunteer-enrolled':
      return 'volunteers';
    case 'availability-given':
      return 'availability';
    case 'orientation-recorded':
      return 'orientation';
    case 'inventory-recorded':
      return 'inventory';
    case 'programme-described':
    case 'table-laid-out':
    case 'weekly-pattern-given':
    case 'sight-judged':
    case 'pinned':
    case 'night-published':
      return null;
  }
}

/** The values of a fact by the names of its table's columns. */
export function valuesOf(fact: Fact): RowValues {
  switch (fact.kind) {
    case 'nest-registered':
    case 'orientation-recorded':
    case 'inventory-recorded':
      return given({ nest: fact.nest, ...fact.details });
    case 'visit-noted':
      return given({ nest: fact.nest, time: fact.at, ...fact.details });
    case 'conditions-noted':
      return given({ ...fact.details });
    case 'volunteer-enrolled':
    case 'availability-given':
      return given({ volunteer: fact.volunteer, ...fact.details });
    case 'programme-described':
    case 'table-laid-out':
    case 'weekly-pattern-given':
    case 'sight-judged':
    case 'pinned':
    case 'night-published':
      return {};
  }
}

/** Field of an event by the name of its column. */
export function fieldOf(table: TableName, column: string): string {
  return table === 'visits' && column === 'time' ? 'at' : column;
}

function given(values: Readonly<Record<string, CellValue | null | undefined>>): RowValues {
  const kept: Record<string, CellValue | null> = {};
  for (const [name, value] of Object.entries(values)) kept[name] = value ?? null;
  return kept;
}

/** Everything in a record that is a row of a table, in the order in which a table is written. */
export function standingRows(record: SeasonRecord, table: TableName): readonly StandingRow[] {
  const rows = standings(record, table)
    .filter((standing) => !standing.withdrawn && tableOf(standing.fact) === table)
    .map(standingRow);
  return rows.sort(inTableOrder);
}

function standings(record: SeasonRecord, table: TableName): readonly Standing[] {
  const nests = [...record.nests.values()];
  switch (table) {
    case 'nests':
      return nests.map(({ registration }) => registration);
    case 'visits':
      return [...nests.flatMap(({ notes }) => [...notes.values()]), ...record.unplaced];
    case 'orientation':
      return [...nests.flatMap(({ orientations }) => orientations), ...record.unplaced];
    case 'inventory':
      return [...nests.flatMap(({ inventories }) => inventories), ...record.unplaced];
    case 'conditions':
      return record.conditions;
    case 'volunteers':
      return record.volunteers;
    case 'availability':
      return record.availability;
  }
}

function standingRow(standing: Standing): StandingRow {
  let text: Record<string, string> = { ...standing.original.source?.text };
  let extra: Record<string, string> = { ...standing.original.source?.extra };
  for (const { event, holds } of standing.amendments) {
    if (!holds) continue;
    text = { ...text, ...event.source?.text };
    extra = { ...extra, ...event.source?.extra };
  }
  const row = standing.original.source?.row ?? null;
  return { standing, values: valuesOf(standing.fact), source: { text, extra }, row };
}

/** Rows of tables as they stood there; then what came by no table, in order of time. */
function inTableOrder(a: StandingRow, b: StandingRow): number {
  if (a.row !== null && b.row !== null && a.row !== b.row) return a.row - b.row;
  if ((a.row === null) !== (b.row === null)) return a.row === null ? 1 : -1;
  const [at, other] = [Date.parse(a.standing.fact.at), Date.parse(b.standing.fact.at)];
  return at - other || (a.standing.fact.id < b.standing.fact.id ? -1 : 1);
}
