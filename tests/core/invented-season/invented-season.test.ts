import { describe, expect, test } from 'vitest';
import { inventSeason } from '../../../src/core/invented-season/invented-season.ts';
import { parseInstant } from '../../../src/core/domain/instant.ts';
import { parseNight } from '../../../src/core/domain/night.ts';
import { writeCsv } from '../../../src/core/exchange/csv/write-csv.ts';
import { readSeasonFolder } from '../../../src/core/exchange/season-folder/read-season-folder.ts';
import { Programme } from '../../../src/core/domain/programme.ts';
import { Species } from '../../../src/core/domain/species.ts';
import * as visit from '../../../src/core/domain/visit.ts';
import { AvailabilityDetails } from '../../../src/core/domain/volunteer.ts';
import { nightNumber, nightOfTime, rowsOf } from './season-columns.ts';

const utf8 = (text: string) => new TextEncoder().encode(text);
const season = inventSeason({ nests: 120, seed: 4 });
const stormy = inventSeason({ nests: 120, seed: 2, weather: 'stormy' });
const visits = rowsOf(season, 'visits.csv');
const truths = new Map(season.truth.map((truth) => [truth.nest, truth]));

describe('the same season again', () => {
  test('comes of the same options', () => {
    expect(inventSeason({ nests: 120, seed: 4 })).toEqual(season);
  });

  test('does not come of another seed', () => {
    expect(inventSeason({ nests: 120, seed: 5 }).truth).not.toEqual(season.truth);
  });

  test.each([
    { observers: 'novice' as const },
    { loggers: false },
    { temperature: false },
    { missing: 0.3 },
  ])('keeps its truth whoever looks and whatever is written down: %o', (option) => {
    expect(inventSeason({ nests: 120, seed: 4, ...option }).truth).toEqual(season.truth);
  });

  test('has the size that was asked for', () => {
    expect(rowsOf(season, 'nests.csv')).toHaveLength(120);
    expect(new Set(season.truth.map(({ nest }) => nest)).size).toBe(120);
    const none = inventSeason({ nests: 0, seed: 1 });
    expect(none.truth).toEqual([]);
    expect(rowsOf(none, 'visits.csv')).toEqual([]);
  });

  test.each([
    { nests: -1, seed: 1 },
    { nests: 2.5, seed: 1 },
    { nests: 5, seed: 0.1 },
    { nests: 5, seed: 1, missing: 1.1 },
    { nests: 5, seed: 1, year: 12 },
  ])('is refused for options that cannot be: %o', (options) => {
    expect(() => inventSeason(options)).toThrow(RangeError);
  });
});

describe('the tables', () => {
  test('say that the place is invented', () => {
    const programme = Programme.parse(season.programme);
    expect(programme.invented).toBe(true);
    expect(programme.name).toMatch(/invented/);
  });

  test.each<[string, (text: string) => boolean]>([
    ['surface', (text) => visit.Surface.safeParse(text).success],
    ['sound', (text) => visit.Sound.safeParse(text).success],
    ['instrument', (text) => visit.Instrument.safeParse(text).success],
    ['wind', (text) => visit.Wind.safeParse(text).success],
    ['rain', (text) => visit.Rain.safeParse(text).success],
    ['experience', (text) => visit.Experience.safeParse(text).success],
    ['event', (text) => visit.Mishap.safeParse(text).success],
    ['tracks', (text) => /^\d+$/.test(text)],
    ['emerged', (text) => /^\d+$/.test(text)],
    ['watched_from', (text) => parseInstant(text) !== null],
  ])('fill %s with words the record knows, or leave it blank', (column, knows) => {
    const cells = visits.map((row) => row[column] ?? '').filter((text) => text !== '');
    expect(cells.length).toBeGreaterThan(0);
    expect(cells.filter((text) => !knows(text))).toEqual([]);
  });

  test('place every nest in its zone, with species and nights that exist', () => {
    const lengths = new Map(season.programme.zones.map(({ zone, length_m }) => [zone, length_m]));
    for (const row of rowsOf(season, 'nests.csv')) {
      expect(Number(row.shore_m)).toBeLessThanOrEqual(lengths.get(row.zone ?? '') ?? -1);
      expect(Species.safeParse(row.species).success).toBe(true);
      if (row.lay_night !== '') expect(parseNight(row.lay_night ?? '')).not.toBeNull();
      expect(row.nest?.[0]).toBe(row.zone?.[0]);
    }
  });

  test('name only people who are on the list of volunteers', () => {
    const people = new Set(rowsOf(season, 'volunteers.csv').map((row) => row.volunteer));
    for (const row of visits) expect(people.has(row.observer)).toBe(true);
    for (const { night, from, to, volunteer } of rowsOf(season, 'availability.csv')) {
      expect(people.has(volunteer)).toBe(true);
      const offer = { night, from: from === '' ? null : from, to: to === '' ? null : to };
      expect(AvailabilityDetails.safeParse(offer).success).toBe(true);
    }
  });

  test('know the lay night of most nests, of some within a range, of one or two not at all', () => {
    const rows = rowsOf(season, 'nests.csv');
    const unknown = rows.filter((row) => row.lay_night === '');
    const ranges = rows.filter((row) => row.lay_night_latest !== '');
    expect(unknown.length).toBeGreaterThanOrEqual(1);
    expect(unknown.length).toBeLessThanOrEqual(3);
    expect(ranges.length).toBeGreaterThanOrEqual(1);
    for (const row of ranges) {
      const laid = nightNumber(truths.get(row.nest ?? '')?.lay_night);
      expect(laid).toBeGreaterThanOrEqual(nightNumber(row.lay_night));
      expect(laid).toBeLessThanOrEqual(nightNumber(row.lay_night_latest));
    }
  });

  test('leave cells blank that nobody filled in', () => {
    const rows = rowsOf(season, 'nests.csv');
    for (const column of ['clutch', 'screened', 'relocated', 'light_exposure'])
      expect(rows.some((row) => row[column] === '')).toBe(true);
    expect(visits.some((row) => row.kind === 'evening' && row.sound === '')).toBe(true);
    expect(visits.every((row) => row.kind === 'morning' || row.tracks === '')).toBe(true);
  });

  test('count in each inventory as many eggs as the clutch had, shells within a few', () => {
    const clutches = new Map(rowsOf(season, 'nests.csv').map((row) => [row.nest, row.clutch]));
    const counted = rowsOf(season, 'inventory.csv').filter((row) => clutches.get(row.nest) !== '');
    expect(counted.length).toBeGreaterThan(30);
    for (const row of counted) {
      const parts = ['shells', 'unhatched', 'pipped_live', 'pipped_dead', 'depredated'];
      const eggs = parts.reduce((sum, part) => sum + Number(row[part]), 0);
      expect(Math.abs(eggs - Number(clutches.get(row.nest)))).toBeLessThanOrEqual(5);
    }
  });

  test('lose cells and visits by the share that is asked for, never a mishap or a watch', () => {
    const holed = rowsOf(inventSeason({ nests: 120, seed: 4, missing: 0.3 }), 'visits.csv');
    const kept = (rows: typeof visits) =>
      rows.filter((row) => row.event !== '' || row.watched_from !== '').length;
    expect(kept(holed)).toBe(kept(visits));
    expect(holed.length / visits.length).toBeGreaterThan(0.65);
    expect(holed.length / visits.length).toBeLessThan(0.77);
    const windBlank = (rows: typeof visits) =>
      rows.filter((row) => row.wind === '').length / rows.length;
    expect(windBlank(holed) - windBlank(visits)).toBeGreaterThan(0.2);
  });

  test('hold no sand temperature without loggers and no conditions without temperature', () => {
    const dry = rowsOf(inventSeason({ nests: 30, seed: 4, loggers: false }), 'conditions.csv');
    expect(dry.every((row) => row.sand_c === '')).toBe(true);
    expect(dry.some((row) => row.air_c !== '')).toBe(true);
    const none = inventSeason({ nests: 30, seed: 4, temperature: false });
    expect(none.tables.map(({ file }) => file)).not.toContain('conditions.csv');
  });
});

describe.each([
  { nests: 120, seed: 4 },
  { nests: 60, seed: 2, weather: 'stormy' as const, missing: 0.2 },
  { nests: 60, seed: 3, weather: 'cold-wet' as const, observers: 'novice' as const, year: 2031 },
])('the season folder of %o', (options) => {
  test('is read without a single complaint', () => {
    const { programme, tables } = inventSeason(options);
    const bytes = new Map([['programme.json', utf8(JSON.stringify(programme))]]);
    for (const { file, columns, rows } of tables)
      bytes.set(file, utf8(writeCsv([columns, ...rows], '\n')));
    const read = readSeasonFolder(bytes, {
      zone: null,
      author: 'a reader',
      device: 'a device',
      now_ms: Date.UTC(2100, 0, 1),
    });
    expect(read.problems).toEqual([]);
    expect(read.events.length).toBeGreaterThan(options.nests * 20);
  });
});

describe('the walks', () => {
  test('visit no nest before it was laid', () => {
    for (const row of visits) {
      const laid = nightNumber(truths.get(row.nest ?? '')?.lay_night);
      expect(nightOfTime(season, row.time)).toBeGreaterThanOrEqual(laid);
    }
  });

  test('visit no nest before the last night it may have been laid', () => {
    const latest = new Map(
      rowsOf(season, 'nests.csv').map((row) => [
        row.nest,
        row.lay_night_latest === '' ? row.lay_night : row.lay_night_latest,
      ]),
    );
    for (const row of visits) {
      const night = latest.get(row.nest);
      if (night) expect(nightOfTime(season, row.time)).toBeGreaterThanOrEqual(nightNumber(night));
    }
  });

  test('are written down in the order of time', () => {
    const times = visits.map((row) => parseInstant(row.time ?? '') ?? Number.NaN);
    expect(times.every((time, at) => at === 0 || time >= (times[at - 1] ?? 0))).toBe(true);
  });

  test('see the sea take a nest only if it never came up, and end there', () => {
    const gone = rowsOf(stormy, 'visits.csv').filter((row) => row.event === 'washout');
    const outcomes = new Map(stormy.truth.map((truth) => [truth.nest, truth.outcome]));
    expect(gone.length).toBeGreaterThan(0);
    for (const { nest, time } of gone) {
      expect(outcomes.get(nest ?? '')).toBe('lost');
      const later = rowsOf(stormy, 'visits.csv').filter(
        (row) => row.nest === nest && (row.time ?? '') > (time ?? ''),
      );
      expect(later).toEqual([]);
    }
  });

  test('find hatchlings only of nests that came up, and many tracks not before the boil', () => {
    for (const row of visits) {
      if (Number(row.tracks) === 0 && Number(row.emerged) === 0) continue;
      const truth = truths.get(row.nest ?? '');
      expect(truth?.outcome).toBe('boil');
      if (Number(row.tracks) >= 10 || Number(row.emerged) >= 10)
        expect(nightOfTime(season, row.time)).toBeGreaterThanOrEqual(nightNumber(truth?.night));
    }
  });

  test('count a boil in a watch exactly when it fell into the watch', () => {
    const watches = visits.filter((row) => row.watched_from !== '');
    expect(watches.length).toBeGreaterThan(100);
    let met = 0;
    for (const row of watches) {
      const boil = parseInstant(truths.get(row.nest ?? '')?.time ?? '') ?? Number.NaN;
      const from = parseInstant(row.watched_from ?? '') ?? Number.NaN;
      const to = parseInstant(row.watched_to ?? '') ?? Number.NaN;
      expect(to).toBeGreaterThan(from);
      // A minute either way: the texts are rounded to minutes.
      if (boil < from - 60_000 || boil > to + 60_000) continue;
      if (Math.abs(boil - from) > 60_000 && Math.abs(boil - to) > 60_000) {
        met++;
        expect(Number(row.emerged)).toBeGreaterThanOrEqual(4);
      }
    }
    expect(met).toBeGreaterThan(5);
  });

  test('ask nobody out for more evenings in seven than they offered', () => {
    const most = new Map(
      rowsOf(season, 'volunteers.csv').map((row) => [row.volunteer, Number(row.max_shifts_week)]),
    );
    const evenings = new Map<string, Set<number>>();
    for (const row of visits.filter(({ kind }) => kind === 'evening')) {
      const nights = evenings.get(row.observer ?? '') ?? new Set<number>();
      evenings.set(row.observer ?? '', nights.add(nightOfTime(season, row.time)));
    }
    expect(evenings.size).toBeGreaterThan(10);
    for (const [observer, nights] of evenings) {
      for (const night of nights) {
        const week = [...nights].filter((other) => other > night - 7 && other <= night);
        expect(week.length).toBeLessThanOrEqual(most.get(observer) ?? 0);
      }
    }
  });

  test('stop within a week of a boil that is known', () => {
    const known = new Map<string, number>();
    for (const row of visits) {
      const night = nightOfTime(season, row.time);
      const nest = row.nest ?? '';
      const since = known.get(nest);
      if (since !== undefined) expect(night - since).toBeLessThanOrEqual(7);
      if (since === undefined && (Number(row.tracks) >= 10 || Number(row.emerged) >= 10))
        known.set(nest, night);
    }
    expect(known.size).toBeGreaterThan(70);
  });

  test('miss some boils, and hear and see false signs', () => {
    const young = visits.filter((row) => {
      const night = truths.get(row.nest ?? '')?.night;
      return night && nightNumber(night) - nightOfTime(season, row.time) > 12;
    });
    expect(young.some((row) => row.surface !== '' && row.surface !== 'smooth')).toBe(true);
    expect(young.some((row) => row.sound !== '' && row.sound !== 'quiet')).toBe(true);
    const came = season.truth.filter(({ outcome }) => outcome === 'boil');
    const unmet = came.filter(
      ({ nest }) => !visits.some((row) => row.nest === nest && Number(row.emerged) >= 10),
    );
    expect(unmet.length).toBeGreaterThan(came.length / 3);
  });

  test('show deeper sand and louder digging as the boil draws near, in dry words and by meter', () => {
    const share = (near: boolean, column: string, plain: string) => {
      const rows = visits.filter((row) => {
        const night = truths.get(row.nest ?? '')?.night;
        if (!night || row.kind !== 'evening' || row[column] === '') return false;
        const left = nightNumber(night) - nightOfTime(season, row.time);
        return near ? left === 0 || left === 1 : left > 8;
      });
      return rows.filter((row) => row[column] !== plain).length / rows.length;
    };
    expect(share(true, 'surface', 'smooth')).toBeGreaterThan(3 * share(false, 'surface', 'smooth'));
    expect(share(true, 'sound', 'quiet')).toBeGreaterThan(3 * share(false, 'sound', 'quiet'));
  });

  test('novices see and hear more of what is not there than practised people', () => {
    const wrong = (observers: 'novice' | 'seasoned') => {
      const read = inventSeason({ nests: 120, seed: 9, observers });
      const never = new Set(
        read.truth.filter(({ outcome }) => outcome === 'lost').map(({ nest }) => nest),
      );
      const rows = rowsOf(read, 'visits.csv').filter(
        (row) => row.sound !== '' && row.kind === 'evening' && never.has(row.nest ?? ''),
      );
      return rows.filter((row) => row.sound !== 'quiet').length / rows.length;
    };
    expect(wrong('novice')).toBeGreaterThan(wrong('seasoned'));
  });
});
