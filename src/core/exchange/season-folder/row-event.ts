import { ConditionsDetails } from '../../domain/conditions.ts';
import { type EventId, type EventOf, SCHEMA } from '../../domain/event.ts';
import { InstantText, formatInstant, parseInstant } from '../../domain/instant.ts';
import { InventoryDetails } from '../../domain/inventory.ts';
import { NestDetails, NestId } from '../../domain/nest.ts';
import { parseNight } from '../../domain/night.ts';
import { OrientationDetails } from '../../domain/orientation.ts';
import { VisitDetails } from '../../domain/visit.ts';
import { AvailabilityDetails, VolunteerDetails } from '../../domain/volunteer.ts';
import { eventIdOfRow } from '../../log/event-id.ts';
import type { Fact } from '../../log/season-record.ts';
import { meaning } from '../cells/cell.ts';
import { specOf } from '../tables/all-tables.ts';
import { text } from '../tables/table-spec.ts';
import type { Row } from './row.ts';
import { wallMoment } from './wall-moment.ts';

/** Who imports, by which clocks. */
export interface Importer {
  readonly zone: string;
  readonly author: string;
  readonly device: string;
}

/**
 * The moment given to what has no date of its own (a volunteer, an availability, a nest whose lay
 * night is not known): it holds from the start. A fixed one, so that the same row is the same event
 * on every device.
 */
export const UNDATED_MS = 0;

/**
 * When what a row says came to be known: a visit at its time; a nest, a night's availability or
 * tracks at the noon that ends the night; conditions at the end of their date; an inventory at noon.
 */
export function momentOf({ table, values }: Row, zone: string): number {
  const day = (name: string): number | null => parseNight(text(values, name) ?? '');
  switch (table) {
    case 'visits':
      return parseInstant(text(values, 'time') ?? '') ?? UNDATED_MS;
    case 'nests': {
      const laid = day('lay_night') ?? day('lay_night_latest');
      return laid === null ? UNDATED_MS : wallMoment(laid + 1, 720, zone);
    }
    case 'conditions':
      return wallMoment((day('date') ?? 0) + 1, 0, zone);
    case 'orientation':
      return wallMoment((day('night') ?? 0) + 1, 720, zone);
    case 'inventory':
      return wallMoment(day('date') ?? 0, 720, zone);
    case 'volunteers':
    case 'availability':
      return UNDATED_MS;
  }
}

/**
 * What a row says, in one text: the same for every way of writing the same values, whatever the
 * order of the columns. `extra` columns count, the number of the row does not.
 */
export function contentOf({ table, values, source }: Row): string {
  const { columns } = specOf(table);
  const cells = columns
    .filter(({ later }) => later !== true)
    .map(({ name, cell }) => meaning(values[name], cell.isTime === true));
  const later = columns
    .filter((column) => column.later === true)
    .map(({ name, cell }) => [name, meaning(values[name], cell.isTime === true)] as const)
    .filter(([, text]) => text !== '');
  const extra = [...Object.entries(source.extra ?? {}), ...later].sort(([a], [b]) =>
    a < b ? -1 : 1,
  );
  return JSON.stringify([table, cells, ...(extra.length === 0 ? [] : [extra])]);
}

/**
 * The event that a row stands for. Its id follows from what the row says and from `ordinal`, which
 * counts the rows that say just the same; it is written when it happened, so that the same row
 * gives the same event on any day. `at_ms` is its `momentOf`. Throws when cells were read that the event cannot hold.
 */
export function eventOfRow(row: Row, at_ms: number, importer: Importer, ordinal: number): Fact {
  const content = contentOf(row);
  const id = eventIdOfRow(at_ms, ordinal === 0 ? content : `${content} ${ordinal + 1}`);
  // A visit keeps the very text of its time.
  const { time } = row.values;
  const at =
    typeof time === 'string' ? InstantText.parse(time) : formatInstant(at_ms, importer.zone);
  return factOf(row, importer, id, at);
}

type Envelope = Pick<
  EventOf<'nest-registered'>,
  'id' | 'schema' | 'at' | 'written' | 'author' | 'device' | 'source'
>;

function factOf(row: Row, importer: Importer, id: EventId, at: InstantText): Fact {
  const { nest, volunteer, time: _, ...details } = row.values;
  const { author, device } = importer;
  const envelope: Envelope = {
    id,
    schema: SCHEMA,
    at,
    written: at,
    author,
    device,
    source: row.source,
  };
  switch (row.table) {
    case 'nests':
      return {
        ...envelope,
        kind: 'nest-registered',
        nest: NestId.parse(nest),
        details: NestDetails.parse(details),
      };
    case 'visits':
      return {
        ...envelope,
        kind: 'visit-noted',
        nest: NestId.parse(nest),
        details: VisitDetails.parse(details),
      };
    case 'conditions':
      return { ...envelope, kind: 'conditions-noted', details: ConditionsDetails.parse(details) };
    case 'volunteers':
      return {
        ...envelope,
        kind: 'volunteer-enrolled',
        volunteer: String(volunteer),
        details: VolunteerDetails.parse(details),
      };
    case 'availability':
      return {
        ...envelope,
        kind: 'availability-given',
        volunteer: String(volunteer),
        details: AvailabilityDetails.parse(details),
      };
    case 'orientation':
      return {
        ...envelope,
        kind: 'orientation-recorded',
        nest: NestId.parse(nest),
        details: OrientationDetails.parse(details),
      };
    case 'inventory':
      return {
        ...envelope,
        kind: 'inventory-recorded',
        nest: NestId.parse(nest),
        details: InventoryDetails.parse(details),
      };
  }
}
