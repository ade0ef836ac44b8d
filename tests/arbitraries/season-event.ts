import fc from 'fast-check';
import { type EventId, SCHEMA, SeasonEvent } from '../../src/core/domain/event.ts';
import { formatInstant } from '../../src/core/domain/instant.ts';
import { asNight, formatNight } from '../../src/core/domain/night.ts';
import { newEventId } from '../../src/core/log/event-id.ts';

const FIRST_MS = Date.UTC(2026, 5, 1);
const SEASON_MS = 100 * 86_400_000;
const nestNames = ['N-1', 'N-2', 'N-3'];
const zones = ['America/New_York', 'Australia/Brisbane', 'Europe/Athens'];

/** An id of its own for the number, at a moment of the season. */
export function idNumbered(number: number, written_ms = FIRST_MS): EventId {
  const random = new Uint8Array(16);
  new DataView(random.buffer).setUint32(12, number);
  return newEventId(written_ms, random);
}

const moment_ms = fc.integer({ min: 0, max: SEASON_MS }).map((offset) => FIRST_MS + offset);
const nest = fc.constantFrom(...nestNames);
const night = fc.integer({ min: 20_600, max: 20_700 }).map((day) => formatNight(asNight(day)));
const count = fc.nat({ max: 200 });
const person = fc.constantFrom('Ada Invented', 'Bo Invented', 'Cy Invented');
const orNothing = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Value | null> =>
  fc.option(value, { nil: null });

const visitValues = fc.record(
  {
    kind: orNothing(fc.constantFrom('evening', 'morning')),
    surface: orNothing(fc.constantFrom('smooth', 'dip', 'depression', 'caved')),
    sound: orNothing(fc.constantFrom('quiet', 'occasional', 'steady', 'waterfall')),
    tracks: orNothing(count),
    emerged: orNothing(count),
    emergence: orNothing(fc.constantFrom('boil', 'stragglers')),
    counting: orNothing(fc.constantFrom('part', 'whole')),
    reached_water: orNothing(count),
    astray: orNothing(count),
    taken: orNothing(count),
    way: orNothing(fc.subarray(['holes', 'gear', 'lamps', 'people'])),
    note: fc.string({ unit: 'grapheme', maxLength: 8 }),
  },
  { requiredKeys: [] },
);
const nestValues = fc.record(
  {
    species: orNothing(fc.constantFrom('Caretta caretta', 'Chelonia mydas')),
    lay_night: orNothing(night),
    lay_night_latest: orNothing(night),
    shore_m: orNothing(fc.integer({ min: 0, max: 5000 })),
    clutch: orNothing(count),
  },
  { requiredKeys: [] },
);

/** What the roster adds to a season. */
const rosterBody = fc.oneof(
  fc.record({
    kind: fc.constant('weekly-pattern-given'),
    volunteer: person,
    details: fc.record({
      days: fc.array(fc.record({ weekday: fc.integer({ min: 1, max: 7 }) }), { maxLength: 3 }),
    }),
  }),
  fc.record({
    kind: fc.constant('sight-judged'),
    details: fc.record({ nests: fc.tuple(nest, nest), together: fc.boolean() }),
  }),
  fc.record({
    kind: fc.constant('pinned'),
    details: fc.record({
      night,
      watch: fc.constantFrom('evening', 'late'),
      at_nest: nest,
      volunteer: orNothing(person),
    }),
  }),
  fc.record({
    kind: fc.constant('night-published'),
    details: fc.record({
      night,
      posts: fc.array(
        fc.record({
          watch: fc.constantFrom('evening', 'late'),
          nests: fc.array(nest, { minLength: 1, maxLength: 2 }),
          from: moment_ms.map((at_ms) => formatInstant(at_ms, 'UTC')),
          to: moment_ms.map((at_ms) => formatInstant(at_ms, 'UTC')),
          sitters: fc.array(person, { maxLength: 2 }),
        }),
        { maxLength: 2 },
      ),
    }),
  }),
);

const factBody = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.record({ kind: fc.constant('nest-registered'), nest, details: nestValues }),
  },
  {
    weight: 6,
    arbitrary: fc.record({ kind: fc.constant('visit-noted'), nest, details: visitValues }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('programme-described'),
      programme: fc.record(
        { name: person, time_zone: fc.constantFrom(...zones) },
        { requiredKeys: ['name'] },
      ),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('conditions-noted'),
      details: fc.record({ date: night, sand_c: orNothing(fc.integer({ min: 20, max: 36 })) }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('volunteer-enrolled'),
      volunteer: person,
      details: fc.record({ max_shifts_week: count }),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('availability-given'),
      volunteer: person,
      details: fc.record({ night }),
    }),
  },
  { weight: 1, arbitrary: rosterBody },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('inventory-recorded'),
      nest,
      details: fc.record(
        {
          date: night,
          shells: count,
          clutch: orNothing(count),
          denominator: orNothing(fc.constantFrom('laid', 'contents')),
        },
        { requiredKeys: ['date'] },
      ),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('orientation-recorded'),
      nest,
      details: fc.record(
        {
          night,
          tracks_counted: count,
          lamps: orNothing(fc.subarray(['street lamp/white/215/by the car park', 'window'])),
          fate_unknown: orNothing(count),
        },
        { requiredKeys: ['night'] },
      ),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      kind: fc.constant('table-laid-out'),
      table: fc.constantFrom('nests', 'visits'),
      columns: fc.subarray(['nest', 'time', 'lay_night', 'surface']),
      newline: fc.constantFrom('\n', '\r\n'),
    }),
  },
);

/** Values good and bad, for fields that the target may or may not have. */
const changes = fc.record(
  {
    nest: fc.constantFrom<unknown>(...nestNames, ''),
    surface: fc.constantFrom<unknown>('smooth', 'caved', 'gone', null),
    clutch: fc.constantFrom<unknown>(0, 90, -1, null),
    emerged: fc.constantFrom<unknown>(0, 80, null),
    way: fc.constantFrom<unknown>(['holes'], ['gear', 'people'], null),
    lay_night: fc.oneof<fc.Arbitrary<unknown>[]>(night, fc.constant('2026-02-30')),
    time_zone: fc.constantFrom<unknown>(...zones, 'Nowhere/At_All'),
    unheard_of: fc.constant<unknown>(1),
  },
  { requiredKeys: [] },
);

/** `target` counts events of the same season, and past its end means one that never comes. */
const amendmentBody = fc.oneof(
  fc.record({ kind: fc.constant('corrected'), target: fc.nat({ max: 79 }), changes }),
  fc.record({ kind: fc.constant('withdrawn'), target: fc.nat({ max: 79 }) }),
);

/**
 * The events of one season with distinct ids in no order of time: facts of all kinds, corrections
 * and withdrawals of them, of each other, of themselves, in rings, and of events that are not there.
 */
export const seasonEvents: fc.Arbitrary<readonly SeasonEvent[]> = fc
  .array(
    fc.record({
      body: fc.oneof({ weight: 3, arbitrary: factBody }, { weight: 1, arbitrary: amendmentBody }),
      at_ms: moment_ms,
      written_ms: moment_ms,
      author: person,
    }),
    { maxLength: 40, size: 'max' },
  )
  .map((drafts) => {
    const ids = drafts.map(({ written_ms }, index) => idNumbered(index, written_ms));
    const nowhere = idNumbered(1_000_000);
    return drafts.map(({ body, at_ms, written_ms, author }, index) =>
      SeasonEvent.parse({
        ...body,
        ...('target' in body ? { target: ids[body.target % (ids.length + 2)] ?? nowhere } : {}),
        id: ids[index],
        schema: SCHEMA,
        at: formatInstant(at_ms, 'UTC'),
        written: formatInstant(written_ms, 'UTC'),
        author,
        device: 'device-1',
      }),
    );
  });
