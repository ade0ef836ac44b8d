import { describe, expect, test } from 'vitest';
import {
  developmentPerDay,
  incubate,
  metabolicHeat_c,
} from '../../../src/core/invented-season/development.ts';

/**
 * Constant temperature (degrees C) -> mean days from laying to hatching, as read from the ROSIE data
 * set (Krueger & Janzen 2022, CC BY 4.0): Mrosovsky 1988 Can J Zool 66:661-669 (Bald Head, North
 * Carolina; Hobe Sound, Florida); Mrosovsky, Kamel, Rees & Margaritoulis 2002 Can J Zool
 * 80:2118-2124 (Kyparissia); Limpus, Reed & Miller 1985 (Queensland, middle of the range given).
 */
const loggerheads: Record<string, [number, number][]> = {
  'Bald Head': [
    [28, 65],
    [28.5, 60.9],
    [29, 56.8],
    [29.3, 54.8],
    [29.7, 53.3],
    [30, 52.1],
    [30.5, 51],
    [31, 48.8],
  ],
  'Hobe Sound': [
    [29, 58.8],
    [29.3, 56.6],
    [30, 53.3],
    [30.9, 50.3],
  ],
  Kyparissia: [
    [27.5, 65.5],
    [27.7, 65.3],
    [28.7, 57.9],
    [28.9, 56.5],
    [29.4, 54.8],
    [29.6, 53.1],
    [30.9, 47.1],
    [31.2, 47],
    [31.4, 46.4],
  ],
  Queensland: [
    [25, 89.3],
    [26, 82.6],
    [27, 68.4],
    [28, 63.5],
    [29, 55.3],
    [30, 53.9],
    [31, 50.9],
    [32, 47.8],
  ],
};

describe.each(Object.entries(loggerheads))('loggerhead eggs from %s', (_place, pairs) => {
  test('take the days in an incubator that were measured', () => {
    const off = pairs.map(([at_c, days]) => 1 / developmentPerDay('Caretta caretta', at_c) - days);
    const meanOff = off.reduce((sum, each) => sum + Math.abs(each), 0) / off.length;
    // Beaches differ: a line through all of them leaves an SD of 2.3 d (facts A2).
    expect(meanOff).toBeLessThan(2);
    for (const each of off) expect(Math.abs(each)).toBeLessThan(4);
  });
});

test('green eggs take the days measured on the mean of three places', () => {
  // Booth et al. 2004 (28, 30 C), Stubbs & Mitchell 2018 (30 C), Tokunaga 1991 (28, 30 C), from ROSIE.
  // Tolerance: a line through the measurements leaves an SD of 3.2 d (facts A2).
  const at28 = 1 / developmentPerDay('Chelonia mydas', 28);
  expect(Math.abs(at28 - (62.65 + 63.4) / 2)).toBeLessThan(2);
  const at30 = 1 / developmentPerDay('Chelonia mydas', 30);
  expect(Math.abs(at30 - (52.6 + 47.7 + 53.6) / 3)).toBeLessThan(2);
});

test('the response is no straight line: a degree matters less in hot sand than in cool', () => {
  const days = (at_c: number) => 1 / developmentPerDay('Caretta caretta', at_c);
  expect(days(27) - days(28)).toBeGreaterThan(1.8 * (days(31) - days(32)));
  expect(developmentPerDay('Caretta caretta', 41)).toBeLessThan(
    developmentPerDay('Caretta caretta', 34),
  );
  expect(developmentPerDay('Caretta caretta', 10)).toBe(0);
});

test('a clutch warms itself by 0.4 degrees in the middle third and by 2.5 at the end', () => {
  // +0.37 C in the middle third (Chelonia mydas, Samandag, 18 nests); 2.5 C at the peak in the final
  // third (review of 16 studies, Front Ecol Evol 2020, doi 10.3389/fevo.2020.556379).
  const shares = Array.from({ length: 34 }, (_, at) => (at + 33) / 100);
  const middle = shares.reduce((sum, at) => sum + metabolicHeat_c(at, 2.5), 0) / shares.length;
  expect(Math.abs(middle - 0.37)).toBeLessThan(0.15);
  expect(Math.abs(metabolicHeat_c(1, 2.5) - 2.5)).toBeLessThan(0.1);
  expect(metabolicHeat_c(0.1, 2.5)).toBeLessThan(0.05);
});

test('field loggerheads come up about a day later than laboratory eggs of their mean warmth hatch', () => {
  // Facts A3: field minus laboratory curve +0.9 d (63 nests); hatching to emergence 4.1 d (Godfrey &
  // Mrosovsky 1997). Tolerance: the spread between the four studies behind the figure.
  for (const sand_c of [27.5, 28.5, 29.5, 30.5]) {
    const incubation = incubate('Caretta caretta', 0, 1, 2.5, 200, () => sand_c);
    expect(incubation).not.toBeNull();
    if (incubation === null) continue;
    const up = incubation.hatch - 0.5 + 4.1;
    const laboratory = 1 / developmentPerDay('Caretta caretta', incubation.mean_c);
    expect(Math.abs(up - laboratory - 0.9)).toBeLessThan(1.5);
  }
});

test('eggs that stay cold never hatch', () => {
  expect(incubate('Caretta caretta', 0, 1, 2.5, 200, () => 11)).toBeNull();
});
