import fc from 'fast-check';
import { expect, test } from 'vitest';
import { addNights, asNight, parseNight } from '../../../src/core/domain/night.ts';
import { Species } from '../../../src/core/domain/species.ts';
import { BeachTemperature } from '../../../src/core/thermal/beach-temperature.ts';
import type { DailyWeather } from '../../../src/core/thermal/daily-weather.ts';

const start = parseNight('2026-05-01') ?? asNight(0);
const degrees = (least: number, most: number) =>
  fc.option(fc.double({ min: least, max: most, noNaN: true }), { freq: 3 });

/** Any rows the importer would let through, in any order. */
const rows: fc.Arbitrary<DailyWeather[]> = fc.array(
  fc.record({
    night: fc.integer({ min: 0, max: 180 }).map((day) => addNights(start, day)),
    zone: fc.constantFrom(null, 'east', 'west'),
    sand_c: degrees(-10, 60),
    air_c: degrees(-30, 60),
    rain_mm: degrees(0, 400),
  }),
  { maxLength: 60 },
);
const species = fc.constantFrom(...Species.options, null);
const zone = fc.constantFrom(null, 'east', 'west', 'north');
const day = fc.integer({ min: -40, max: 220 });

test('a replay of an evening never sees what was written down of later dates', () => {
  fc.assert(
    fc.property(
      rows,
      rows,
      day,
      day,
      species,
      zone,
      (before, after, evening, laid, kind, where) => {
        const tonight = addNights(start, evening);
        const known = before.filter(({ night }) => night < tonight);
        const future = after.filter(({ night }) => night >= tonight);
        const [told, untold] = [[...known, ...future], known].map((given) =>
          new BeachTemperature(given, tonight, 27).central(kind, addNights(start, laid), where),
        );
        expect(told).toEqual(untold);
      },
    ),
    { seed: 20260501, numRuns: 150 },
  );
});

test('whatever was written down, a nest is due after a number of nights', () => {
  fc.assert(
    fc.property(rows, day, day, species, zone, (given, evening, laid, kind, where) => {
      const beach = new BeachTemperature(given, addNights(start, evening));
      const found = beach.central(kind, addNights(start, laid), where);
      if (found === null) return;
      // The ends of the development lines: 15.5 C over the zero point of the hastiest, 5 of the
      // slowest.
      expect(found.nights).toBeGreaterThan(35);
      expect(found.nights).toBeLessThan(1211 / 5 + 3);
      expect(found.spread_nights55).toBeGreaterThanOrEqual(2.5);
      expect(found.spread_nights55).toBeLessThanOrEqual(6.5 + 1e-12);
      expect(found.logPerDegree).toBeLessThanOrEqual(0);
      expect(Number.isFinite(found.meanDeviation_c)).toBe(true);
    }),
    { seed: 20260502, numRuns: 150 },
  );
});

test('the order of the rows does not matter', () => {
  fc.assert(
    fc.property(rows, day, species, zone, (given, laid, kind, where) => {
      const [one, other] = [given, [...given].reverse()].map((each) =>
        new BeachTemperature(each, addNights(start, 200)).central(
          kind,
          addNights(start, laid),
          where,
        ),
      );
      expect(other === null).toBe(one === null);
      expect(other?.nights ?? 0).toBeCloseTo(one?.nights ?? 0, 9);
    }),
    { seed: 20260503, numRuns: 100 },
  );
});
