import type { NestDetails } from '../../domain/nest.ts';
import { type Night, addNights, formatNight, parseNight } from '../../domain/night.ts';
import { formatInstant, parseInstant } from '../../domain/instant.ts';
import type { EmergenceTotal } from '../../emergence/emergence-total.ts';
import type { NestEmergence } from '../../emergence/nest-emergence.ts';
import type { FactOf, NestRecord } from '../../log/season-record.ts';
import {
  type Precision,
  generalisation,
  receiver_m,
  roundingOf,
  withheld,
} from '../public/generalise.ts';
import { type DwcRow, type DwcTable, dwcTable } from './dwc-table.ts';

/** Columns of the event table, after the id. Terms of Darwin Core; see `tests/reference/darwin-core`. */
const terms = [
  'parentEventID',
  'eventType',
  'eventDate',
  'samplingProtocol',
  'samplingEffort',
  'locality',
  'decimalLatitude',
  'decimalLongitude',
  'geodeticDatum',
  'coordinateUncertaintyInMeters',
  'coordinatePrecision',
  'dataGeneralizations',
  'informationWithheld',
  'eventRemarks',
] as const;
type EventRow = DwcRow<(typeof terms)[number]>;

/** A nest with what came up at it. */
export interface NestToWrite {
  readonly record: NestRecord;
  readonly emergence: NestEmergence;
}

/** The id of the event that a nest is; its visits, boil and inventory are events within it. */
export function nestEventId({ nest }: NestRecord): string {
  return `nest:${nest.id}`;
}

/** The id of what came up at a nest on one night. */
export function emergenceEventId(nest: NestRecord, { night, emergence }: EmergenceTotal): string {
  return `${nestEventId(nest)}:${emergence}:${formatNight(night)}`;
}

/** The id of a boil that is known by its tracks alone. */
export function trackBoilEventId(nest: NestRecord, night: Night): string {
  return `${nestEventId(nest)}:boil:${formatNight(night)}`;
}

/** The event table: each nest, and within it visits, emergences, tracks and inventories. */
export function dwcEvents(
  nests: readonly NestToWrite[],
  zone: string,
  precision: Precision | null,
): DwcTable {
  const rows = nests.flatMap(({ record, emergence }) => [
    nestEvent(record, precision),
    ...[...record.notes.values()]
      .filter(({ withdrawn }) => !withdrawn)
      .map(({ fact }) => visitEvent(record, fact)),
    ...emergence.totals.map((total) => emergenceEvent(record, total, zone)),
    ...trackBoil(record, emergence),
    ...record.orientations.map(({ fact }) =>
      child(record, fact.id, 'tracks of hatchlings', nightSpan(fact.details.night), {
        samplingProtocol: 'bearings of hatchling tracks from true north',
        eventRemarks: fact.details.note ?? null,
      }),
    ),
    ...record.inventories.map(({ fact }) =>
      child(record, fact.id, 'nest inventory', fact.details.date, {
        samplingProtocol: 'contents of the nest counted by a permit holder',
        eventRemarks: fact.details.note ?? null,
      }),
    ),
  ]);
  return dwcTable('event', 'event.csv', terms, rows);
}

function nestEvent(record: NestRecord, precision: Precision | null): EventRow {
  const { details } = record.registration.fact;
  return {
    event: nestEventId(record),
    values: {
      eventType: 'nest',
      eventDate: layDates(details),
      samplingProtocol: 'nest found and marked on patrol',
      locality: details.zone ?? null,
      ...positionOf(details, precision),
      informationWithheld: precision === null ? null : withheld,
    },
  };
}

function positionOf(
  { latitude, longitude }: NestDetails,
  precision: Precision | null,
): EventRow['values'] {
  if (typeof latitude !== 'number' || typeof longitude !== 'number') return {};
  return {
    decimalLatitude: latitude,
    decimalLongitude: longitude,
    geodeticDatum: 'EPSG:4326',
    coordinateUncertaintyInMeters: precision === null ? receiver_m : roundingOf(precision),
    coordinatePrecision: precision,
    dataGeneralizations: precision === null ? null : generalisation(precision),
  };
}

/** A date, or a span of dates, as ISO 8601 has them; null when the lay night is not known. */
function layDates({ lay_night, lay_night_latest }: NestDetails): string | null {
  const from = lay_night ?? lay_night_latest ?? null;
  const to = lay_night_latest ?? from;
  return from === to ? from : `${from}/${to}`;
}

function child(
  nest: NestRecord,
  event: string,
  eventType: string,
  eventDate: string,
  values: EventRow['values'],
): EventRow {
  const withNest = { parentEventID: nestEventId(nest), eventType, eventDate };
  return { event, values: { ...withNest, ...values } };
}

function visitEvent(nest: NestRecord, { id, at, details }: FactOf<'visit-noted'>): EventRow {
  const from_ms = parseInstant(details.watched_from ?? '');
  const to_ms = parseInstant(details.watched_to ?? '');
  const watched_min = from_ms === null || to_ms === null ? null : (to_ms - from_ms) / 60_000;
  const looked = [
    details.surface ? 'surface looked at' : null,
    details.sound ? `listened${byInstrument(details.instrument)}` : null,
    typeof details.tracks === 'number' ? 'tracks looked for at dawn' : null,
    watched_min === null ? null : 'watched',
  ].filter((part) => part !== null);
  return child(nest, id, 'visit', at, {
    samplingProtocol: looked.length === 0 ? 'visit' : looked.join('; '),
    samplingEffort: watched_min === null ? null : `${Math.round(watched_min)} minutes watched`,
    eventRemarks: details.note ?? null,
  });
}

const byInstrument = (instrument: string | null | undefined): string =>
  instrument ? ` by ${instrument}` : '';

function emergenceEvent(nest: NestRecord, total: EmergenceTotal, zone: string): EventRow {
  const { night, first_ms, last_ms, counters, basis } = total;
  const from = first_ms === null ? null : formatInstant(first_ms, zone);
  const to = last_ms === null ? null : formatInstant(last_ms, zone);
  const seen = from !== null && to !== null && from !== to ? `${from}/${to}` : from;
  return child(
    nest,
    emergenceEventId(nest, total),
    total.emergence === 'boil' ? 'emergence' : 'emergence of stragglers',
    seen ?? nightSpan(formatNight(night)),
    {
      samplingProtocol: 'hatchlings counted as they came up',
      samplingEffort: counters.length === 0 ? null : `${counters.length} counters`,
      eventRemarks: basis,
    },
  );
}

function trackBoil(nest: NestRecord, { boil, boilBy }: NestEmergence): readonly EventRow[] {
  if (boil === null || boilBy !== 'tracks') return [];
  const span = nightSpan(formatNight(boil));
  const values = { samplingProtocol: 'hatchling tracks counted at dawn' };
  return [child(nest, trackBoilEventId(nest, boil), 'emergence', span, values)];
}

/** The two dates that a night lies in. */
function nightSpan(date: string): string {
  const night = parseNight(date);
  return night === null ? date : `${date}/${formatNight(addNights(night, 1))}`;
}
