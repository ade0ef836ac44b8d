import type { SeasonEvent, TableName } from '../../domain/event.ts';
import type { SeasonRecord } from '../../log/season-record.ts';
import { type Problem, ProblemsOfFile } from '../problem.ts';
import { tablesInOrder } from '../tables/all-tables.ts';
import type { HeaderColumn } from '../tables/header.ts';
import { type TableSpec, fileOf } from '../tables/table-spec.ts';
import { findFiles } from './find-files.ts';
import { layoutEvent } from './layout-event.ts';
import { programmeEvent, readProgramme } from './programme-file.ts';
import { readRosterFile } from './roster-file.ts';
import { type TableOutline, headerText, readTable } from './read-table.ts';
import type { Row } from './row.ts';
import { type Importer, contentOf, eventOfRow, momentOf } from './row-event.ts';
import { SeasonSoFar } from './season-so-far.ts';

export interface ReadOptions {
  /** IANA zone when `programme.json` names none; null = UTC. */
  readonly zone: string | null;
  readonly author: string;
  readonly device: string;
  readonly now_ms: number;
  /** A record that the rows will join: its nests are known, its time zone holds. */
  readonly into?: SeasonRecord;
}

/** Rows of one table that hold something, and how many of them are good. */
export interface RowCount {
  readonly rows: number;
  readonly taken: number;
}

/** A season folder as it was read: the good rows as events, and what is wrong with the others. */
export interface ReadSeason {
  readonly events: readonly SeasonEvent[];
  readonly problems: readonly Problem[];
  readonly counts: Readonly<Partial<Record<TableName, RowCount>>>;
  /** The zone by which times without offset were read. */
  readonly zone: string;
}

/**
 * Reads the files of a season folder, by name. Every good row comes out as an event, whatever is
 * wrong with others; the same folder gives the same event ids on any day and on any device.
 */
export function readSeasonFolder(
  files: ReadonlyMap<string, Uint8Array>,
  options: ReadOptions,
): ReadSeason {
  const found = findFiles(files);
  const problems: Problem[] = [...found.problems];
  const read = found.programme === null ? null : readProgramme(found.programme);
  if (read?.ok === false) problems.push(read.problem);
  const programme = read?.ok === true ? read : null;
  const zone =
    programme?.programme.time_zone ??
    options.into?.programme.time_zone ??
    options.zone ??
    options.into?.zone ??
    'UTC';
  const importer = { zone, author: options.author, device: options.device };
  const events: SeasonEvent[] = [];
  if (programme !== null) events.push(programmeEvent(programme, importer));
  const season = new SeasonSoFar(zone, options.now_ms, options.into ?? null);
  const counts: Partial<Record<TableName, RowCount>> = {};
  for (const spec of tablesInOrder) {
    const bytes = found.tables.get(spec.table);
    if (bytes === undefined) {
      const needed = spec.table === 'nests' && options.into === undefined;
      if (needed && !problems.some(({ file }) => file === fileOf('nests'))) {
        problems.push(noNests(spec));
      }
      continue;
    }
    const own = new ProblemsOfFile(fileOf(spec.table));
    const before = events.length;
    const outline = takeTable(bytes, spec, season, importer, own, events);
    if (outline !== null) {
      counts[spec.table] = { rows: outline.rows, taken: events.length - before };
      if (outline.readable) events.push(layoutEvent(spec.table, outline, importer));
    }
    problems.push(...own.list());
  }
  if (found.roster !== null) {
    const roster = readRosterFile(found.roster);
    events.push(...roster.events);
    problems.push(...roster.problems);
  }
  return { events, problems, counts, zone };
}

function takeTable(
  bytes: Uint8Array,
  spec: TableSpec,
  season: SeasonSoFar,
  importer: Importer,
  problems: ProblemsOfFile,
  events: SeasonEvent[],
): TableOutline | null {
  const alike = new Map<string, number>();
  const ids = new Set<string>();
  const take = (row: Row): void => {
    const at_ms = momentOf(row, importer.zone);
    const findings = [...spec.check(row.values), ...season.check(row, at_ms, spec)];
    for (const { severity, column, message, once } of findings) {
      if (once === undefined) problems.add(severity, row.source.row, column, message);
      else problems.addOnce(once, severity, row.source.row, column, message);
    }
    if (findings.some((finding) => finding.severity === 'error')) {
      if (spec.table === 'nests') season.leaveOut(String(row.values['nest']), row.source.row);
      return;
    }
    season.take(row, spec);
    let event = eventOfRow(row, at_ms, importer, 0);
    if (ids.has(event.id)) {
      // Only rows that say just what an earlier one said come here, so few are remembered.
      const content = contentOf(row);
      const ordinal = (alike.get(content) ?? 0) + 1;
      alike.set(content, ordinal);
      event = eventOfRow(row, at_ms, importer, ordinal);
    }
    ids.add(event.id);
    events.push(event);
  };
  const leaveOut = (
    row: number,
    cells: readonly string[],
    header: readonly HeaderColumn[],
  ): void => {
    if (spec.table !== 'nests') return;
    const at = header.findIndex((entry) => entry.kind === 'known' && entry.column.name === 'nest');
    season.leaveOut((cells[at] ?? '').trim(), row);
  };
  return readTable(bytes, spec, importer.zone, problems, take, leaveOut);
}

function noNests(spec: TableSpec): Problem {
  const message = `there is no ${fileOf('nests')} here; expected one with the header ${headerText(spec)}. Give the folder that holds it.`;
  return { file: fileOf('nests'), row: 0, column: '', message, severity: 'error' };
}
