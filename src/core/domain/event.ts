import * as z from 'zod/mini';
import { ConditionsDetails } from './conditions.ts';
import { InstantText } from './instant.ts';
import { InventoryDetails } from './inventory.ts';
import { NestDetails, NestId } from './nest.ts';
import { OrientationDetails } from './orientation.ts';
import { Programme } from './programme.ts';
import { PinDetails, PublishedNight, SightDetails, WeeklyPatternDetails } from './roster.ts';
import { VisitDetails } from './visit.ts';
import { AvailabilityDetails, VolunteerDetails } from './volunteer.ts';

/** The shape number that events are written with today. Older ones are lifted on read. */
export const SCHEMA = 1;

const UUID_V7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;

/** A UUIDv7 (RFC 9562), lower case. */
export const EventId = z.string().check(z.regex(UUID_V7, 'a UUIDv7')).brand<'EventId'>();
export type EventId = z.infer<typeof EventId>;

/**
 * Where an imported event came from: the row of its table, the cells whose text is not the one
 * we would write, and the cells of columns we do not know. It makes the way out exact.
 */
const Source = z.object({
  row: z.int().check(z.nonnegative()),
  text: z.optional(z.record(z.string(), z.string())),
  extra: z.optional(z.record(z.string(), z.string())),
});
export type Source = z.infer<typeof Source>;

/** The tables of a season folder. */
export const TableName = z.enum([
  'nests',
  'visits',
  'conditions',
  'volunteers',
  'availability',
  'orientation',
  'inventory',
]);
export type TableName = z.infer<typeof TableName>;

/** What every event carries: its id, when it happened, when and by whom it was written, on which device. */
const envelope = {
  id: EventId,
  schema: z.literal(SCHEMA),
  at: InstantText,
  written: InstantText,
  author: z.string(),
  device: z.string(),
  source: z.optional(Source),
};

/** One thing that happened. Never edited: a correction or a withdrawal is an event of its own. */
export const SeasonEvent = z.discriminatedUnion('kind', [
  z.object({ ...envelope, kind: z.literal('programme-described'), programme: Programme }),
  z.object({
    ...envelope,
    kind: z.literal('table-laid-out'),
    table: TableName,
    columns: z.array(z.string()),
    newline: z.enum(['\n', '\r\n']),
  }),
  z.object({
    ...envelope,
    kind: z.literal('nest-registered'),
    nest: NestId,
    details: NestDetails,
  }),
  z.object({ ...envelope, kind: z.literal('visit-noted'), nest: NestId, details: VisitDetails }),
  z.object({ ...envelope, kind: z.literal('conditions-noted'), details: ConditionsDetails }),
  z.object({
    ...envelope,
    kind: z.literal('volunteer-enrolled'),
    volunteer: z.string().check(z.minLength(1)),
    details: VolunteerDetails,
  }),
  z.object({
    ...envelope,
    kind: z.literal('availability-given'),
    volunteer: z.string().check(z.minLength(1)),
    details: AvailabilityDetails,
  }),
  z.object({
    ...envelope,
    kind: z.literal('weekly-pattern-given'),
    volunteer: z.string().check(z.minLength(1)),
    details: WeeklyPatternDetails,
  }),
  z.object({ ...envelope, kind: z.literal('sight-judged'), details: SightDetails }),
  z.object({ ...envelope, kind: z.literal('pinned'), details: PinDetails }),
  z.object({ ...envelope, kind: z.literal('night-published'), details: PublishedNight }),
  z.object({
    ...envelope,
    kind: z.literal('orientation-recorded'),
    nest: NestId,
    details: OrientationDetails,
  }),
  z.object({
    ...envelope,
    kind: z.literal('inventory-recorded'),
    nest: NestId,
    details: InventoryDetails,
  }),
  z.object({
    ...envelope,
    kind: z.literal('corrected'),
    target: EventId,
    /** New values by field name of the target's details (or `at`); null = not known after all. */
    changes: z.record(z.string(), z.unknown()),
    reason: z.optional(z.string()),
  }),
  z.object({
    ...envelope,
    kind: z.literal('withdrawn'),
    target: EventId,
    reason: z.optional(z.string()),
  }),
]);
export type SeasonEvent = z.infer<typeof SeasonEvent>;

/** Events of one kind. */
export type EventOf<Kind extends SeasonEvent['kind']> = Extract<SeasonEvent, { kind: Kind }>;
