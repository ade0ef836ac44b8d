import { describe, expect, test } from 'vitest';
import { addNights, asNight, parseNight } from '../../../src/core/domain/night.ts';
import { BeachTemperature } from '../../../src/core/thermal/beach-temperature.ts';
import type { DailyWeather } from '../../../src/core/thermal/daily-weather.ts';

const laid = parseNight('2026-06-10') ?? asNight(0);
const row = (day: number, more: Partial<DailyWeather>): DailyWeather => ({
  night: addNights(laid, day),
  zone: null,
  sand_c: null,
  air_c: null,
  rain_mm: null,
  ...more,
});
/** Rows of the days `from`..`to` after laying. */
const days = (from: number, to: number, more: Partial<DailyWeather>): DailyWeather[] =>
  Array.from({ length: to - from + 1 }, (_, at) => row(from + at, more));
const later = addNights(laid, 200);
const central = (rows: readonly DailyWeather[], zone: string | null = 'east', before = later) =>
  new BeachTemperature(rows, before).central('Caretta caretta', laid, zone);

describe('a nest in sand of 29 C, measured every day', () => {
  // Thirds of development at 29, 29.4 and from 29.4 to 31.5 C, and a day to the boil.
  const expected =
    236 / 12.2 + 236 / 12.6 + (236 * Math.log((12.2 + 2.5) / (12.2 + 0.4))) / 2.1 + 1;
  const beside = central(days(0, 120, { zone: 'east', sand_c: 29 }));

  test('is due when development sums and the clutch’s own heat say', () => {
    expect(Math.abs(beside!.nights - expected)).toBeLessThan(0.05);
  });

  test('comes 8 to 9 % earlier for a degree more', () => {
    // 708/(T - 16.8) alone gives -1/(29 - 16.8) = -.082 per degree; its own heat makes it less, as
    // does the fixed day.
    expect(beside!.logPerDegree).toBeLessThan(-0.07);
    expect(beside!.logPerDegree).toBeGreaterThan(-0.083);
  });

  test('lies in the middle of what the development lines rest on', () => {
    expect(beside!.meanDeviation_c).toBe(0);
    expect(beside!.mean_c).toBe(29);
  });
});

describe('how far nests spread depends on what is known', () => {
  const full = { zone: 'east', sand_c: 29 };
  test.each([
    ['sand of its own zone', days(0, 120, full), 'beside', 2.5],
    ['a logger elsewhere', days(0, 120, { zone: 'west', sand_c: 29 }), 'beach', 3],
    ['a logger for the whole beach', days(0, 120, { sand_c: 29 }), 'beach', 3],
    ['air and rain', days(0, 120, { air_c: 27, rain_mm: 2 }), 'air', 3.5],
    ['other nights than its own', days(-100, -40, full), 'none', 4.5],
  ] as const)('%s', (_, rows, basis, spread) => {
    const found = central(rows);
    expect(found?.basis).toBe(basis);
    expect(found?.spread_nights55).toBeCloseTo(spread, 12);
  });

  test('a gap widens it, the more the longer', () => {
    const spreads = [0, 5, 15, 30].map(
      (gap) =>
        central([...days(0, 20, full), ...days(21 + gap, 120, full)])?.spread_nights55 ?? NaN,
    );
    expect(spreads[0]).toBeCloseTo(2.5, 12);
    for (let at = 1; at < spreads.length; at++) {
      expect(spreads[at]!).toBeGreaterThan(spreads[at - 1]!);
      expect(spreads[at]!).toBeLessThan(4.5);
    }
  });

  test('it narrows as the nest’s days are measured one after another', () => {
    const rows = days(-10, 120, full);
    const spreads = [0, 15, 30, 45, 60].map(
      (age) => central(rows, 'east', addNights(laid, age))?.spread_nights55 ?? NaN,
    );
    expect(spreads).toEqual([...spreads].sort((a, b) => b - a));
    expect(spreads[0]).toBeCloseTo(4.5, 12);
    expect(spreads[4]).toBeCloseTo(2.5, 12);
  });

  test('a nest of unknown species spreads more', () => {
    const beach = new BeachTemperature(days(-100, -40, full), later);
    expect(beach.central(null, laid, 'east')?.spread_nights55).toBeCloseTo(6.5, 12);
  });
});

describe('zones', () => {
  const rows = [
    ...days(-20, 120, { zone: 'east', sand_c: 30 }),
    ...days(-20, 120, { zone: 'west', sand_c: 28.5 }),
  ];
  test('warmer sand brings its nests up earlier; a zone without a logger lies between', () => {
    const [east, west, north, unsaid] = ['east', 'west', 'north', null].map((zone) =>
      central(rows, zone),
    );
    expect(east!.nights).toBeLessThan(north!.nights);
    expect(north!.nights).toBeLessThan(west!.nights);
    expect(unsaid).toEqual(north);
    expect(east!.meanDeviation_c - west!.meanDeviation_c).toBeCloseTo(1.5, 6);
  });

  test('what a zone’s logger misses comes from the others, as much warmer as the zone is', () => {
    const silent = rows.filter(
      ({ zone, night }) => zone !== 'east' || night < laid + 15 || night > laid + 40,
    );
    const [whole, patched] = [rows, silent].map((given) => central(given));
    expect(Math.abs(patched!.nights - whole!.nights)).toBeLessThan(0.3);
    expect(patched!.spread_nights55).toBeGreaterThan(whole!.spread_nights55);
    expect(patched!.spread_nights55).toBeLessThan(3);
    expect(patched!.basis).toBe('beside');
  });
});

test('a beach of which no temperature was written down says nothing', () => {
  expect(central([])).toBeNull();
  expect(central(days(0, 60, { rain_mm: 3 }))).toBeNull();
  expect(central(days(0, 60, { sand_c: 29 }), 'east', addNights(laid, -5))).toBeNull();
});

test('a logger that lay in the sun or in the ice box is not believed', () => {
  const sound = days(0, 120, { zone: 'east', sand_c: 29 });
  const odd = [row(30, { zone: 'west', sand_c: 52 }), row(31, { zone: 'west', sand_c: 4 })];
  expect(central([...sound, ...odd])).toEqual(central(sound));
});

test('a date whose year was mistyped does not count', () => {
  const sound = days(0, 120, { zone: 'east', sand_c: 29 });
  expect(central([...sound, row(-700_000, { zone: 'east', sand_c: 20 })])).toEqual(central(sound));
});

test('two readings of one day in one zone count as their mean', () => {
  const twice = [28, 30].flatMap((sand_c) => days(0, 120, { zone: 'east', sand_c }));
  expect(central(twice)).toEqual(central(days(0, 120, { zone: 'east', sand_c: 29 })));
});

describe('air and rain alone', () => {
  test('give a warm spell’s nests an earlier night, by as much as damping leaves', () => {
    const season = (warm: boolean) =>
      Array.from({ length: 180 }, (_, at) =>
        row(at - 60, { air_c: 26.5 + (warm && at >= 70 && at < 100 ? 2 : 0), rain_mm: 0 }),
      );
    const [plain, warm] = [season(false), season(true)].map((rows) => central(rows));
    const earlier = plain!.nights - warm!.nights;
    // Thirty days of 2 C more in some fifty-five, 4.5 d a degree: 4.9 d if all of it reached the
    // nest.
    expect(earlier).toBeGreaterThan(1);
    expect(earlier).toBeLessThan(4.9);
  });

  test('a thermometer hung in the shade or on a hill still gives a likely night', () => {
    for (const air_c of [23, 26, 29]) {
      const found = central(days(-60, 120, { air_c, rain_mm: 0 }));
      expect(found!.nights).toBeGreaterThan(45);
      expect(found!.nights).toBeLessThan(70);
    }
  });

  test('a logger that ran for a month puts the guess from air right for the rest', () => {
    const air = days(-60, 120, { air_c: 24, rain_mm: 0 });
    const month = days(-40, -5, { zone: 'east', sand_c: 30.5 });
    const truth = central(days(0, 120, { zone: 'east', sand_c: 30.5 }))!.nights;
    const [alone, helped] = [air, [...air, ...month]].map((rows) => central(rows)!.nights);
    expect(Math.abs(helped! - truth)).toBeLessThan(0.25 * Math.abs(alone! - truth));
  });
});
