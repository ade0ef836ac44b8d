import {
  type EventOf,
  SCHEMA,
  type SeasonEvent,
  type Source,
  type TableName,
} from '../../domain/event.ts';
import { formatInstant } from '../../domain/instant.ts';
import { eventIdOfRow } from '../../log/event-id.ts';
import type { Fact, SeasonRecord } from '../../log/season-record.ts';
import { layoutEvent } from '../season-folder/layout-event.ts';
import type { ReadSeason } from '../season-folder/read-season-folder.ts';
import { rosterEvents } from '../season-folder/roster-file.ts';
import { standingRows, tableOf, valuesOf } from '../season-folder/standing-row.ts';
import { tablesInOrder } from '../tables/all-tables.ts';
import { readHeader } from '../tables/header.ts';
import type { TableSpec } from '../tables/table-spec.ts';
import { type Changes, type FileColumns, changedFields } from './changed-fields.ts';
import { pairRows } from './pair-rows.ts';
import { newProgramme } from './new-programme.ts';

/** How the rows of a table compare with the record they would join. */
export interface Comparison {
  readonly fresh: number;
  readonly corrected: number;
  readonly same: number;
}

export interface Reconciled {
  /** What has to be added to the log, and nothing else. */
  readonly events: readonly SeasonEvent[];
  readonly counts: Readonly<Partial<Record<TableName, Comparison>>>;
}

export interface ReconcileOptions {
  readonly author: string;
  readonly device: string;
  readonly now_ms: number;
}

/**
 * What a season that was read adds to a record. A row that stands there already adds nothing; one
 * that stands with other values becomes a correction of just those; the rest is new. Importing the
 * same folder again adds nothing, on whatever day.
 */
export function reconcile(
  read: ReadSeason,
  record: SeasonRecord,
  options: ReconcileOptions,
): Reconciled {
  const who = { ...options, zone: read.zone };
  const events: SeasonEvent[] = [...newProgramme(read.events, record, who)];
  const counts: Partial<Record<TableName, Comparison>> = {};
  const layouts = new Map<TableName, EventOf<'table-laid-out'>>();
  const facts = new Map<TableName, Fact[]>();
  for (const event of read.events) {
    if (event.kind === 'corrected' || event.kind === 'withdrawn') continue;
    if (event.kind === 'table-laid-out') layouts.set(event.table, event);
    const table = tableOf(event);
    if (table === null) continue;
    const list = facts.get(table);
    if (list === undefined) facts.set(table, [event]);
    else list.push(event);
  }
  for (const spec of tablesInOrder) {
    const layout = layouts.get(spec.table);
    if (layout === undefined) continue;
    const rows = facts.get(spec.table) ?? [];
    counts[spec.table] = reconcileTable(spec, rows, layout, record, who, events);
    const held = record.layouts.get(spec.table);
    if (held === undefined) events.push(layout);
    else if (!sameLayout(held, layout)) {
      events.push(layoutEvent(spec.table, layout, who, options.now_ms));
    }
  }
  // What is settled of who sits where comes with the ids it has had from the start.
  events.push(...rosterEvents(read.events).filter(({ id }) => !record.events.has(id)));
  return { events, counts };
}

type Who = ReconcileOptions & { readonly zone: string };

function reconcileTable(
  spec: TableSpec,
  facts: readonly Fact[],
  layout: EventOf<'table-laid-out'>,
  record: SeasonRecord,
  who: Who,
  events: SeasonEvent[],
): Comparison {
  const columns = columnsOf(layout, spec);
  const counts = { fresh: 0, corrected: 0, same: 0 };
  for (const { theirs, ours } of pairRows(spec, facts, standingRows(record, spec.table))) {
    if (ours === null) {
      // A row that was imported before and withdrawn since stays withdrawn.
      if (record.events.has(theirs.id)) counts.same++;
      else {
        counts.fresh++;
        events.push(theirs);
      }
      continue;
    }
    const extra = theirs.source?.extra ?? {};
    const changes = changedFields(spec, valuesOf(theirs), extra, ours, columns);
    if (isEmpty(changes.fields) && isEmpty(changes.extra)) counts.same++;
    else {
      counts.corrected++;
      events.push(correction(ours.standing.original, theirs.source, changes, who));
    }
  }
  return counts;
}

function correction(
  target: Fact,
  source: Source | undefined,
  { fields, extra }: Changes,
  { author, device, now_ms, zone }: Who,
): EventOf<'corrected'> {
  const at = formatInstant(now_ms, zone);
  return {
    id: eventIdOfRow(now_ms, JSON.stringify(['corrected', target.id, fields, extra])),
    schema: SCHEMA,
    at,
    written: at,
    author,
    device,
    source: {
      row: source?.row ?? 0,
      ...(source?.text === undefined ? {} : { text: source.text }),
      ...(isEmpty(extra) ? {} : { extra: { ...extra } }),
    },
    kind: 'corrected',
    target: target.id,
    changes: { ...fields },
  };
}

function columnsOf(layout: EventOf<'table-laid-out'>, spec: TableSpec): FileColumns {
  const known = new Set<string>();
  const extra = new Set<string>();
  for (const entry of readHeader(layout.columns, spec)) {
    if (entry.kind === 'known') known.add(entry.column.name);
    else extra.add(entry.key);
  }
  return { known, extra };
}

function sameLayout(a: EventOf<'table-laid-out'>, b: EventOf<'table-laid-out'>): boolean {
  return (
    a.newline === b.newline &&
    a.columns.length === b.columns.length &&
    a.columns.every((column, index) => column === b.columns[index])
  );
}

const isEmpty = (record: object): boolean => Object.keys(record).length === 0;
