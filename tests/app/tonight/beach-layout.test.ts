import { expect, test } from 'vitest';
import { fitting, layOutBeach, scaleBar_m } from '../../../src/app/screens/tonight/beach-layout.ts';
import { foot_m, mile_m } from '../../../src/core/domain/measures.ts';
import type { NestForecast } from '../../../src/core/forecast/forecast.ts';
import { SeasonBuilder } from '../../builders/season.ts';

const room = { char_px: 7, width_px: 400, lanes: 2 };

function forecasts(
  nests: Readonly<Record<string, [zone: string, shore_m: number | null, p: number]>>,
) {
  const season = new SeasonBuilder();
  for (const [id, [zone, shore_m]] of Object.entries(nests)) season.nest(id, { zone, shore_m });
  return [...season.record().nests.values()].map(
    (record) => ({ record, pTonight: nests[record.nest.id]?.[2] ?? 0 }) as NestForecast,
  );
}

test('zones stand in the programme’s order, each as long as it is told to be', () => {
  const list = forecasts({ B1: ['B', 100, 0.1], A1: ['A', 50, 0.1], X1: ['X', 900, 0.1] });
  const programme = {
    zones: [
      { zone: 'A', length_m: 800 },
      { zone: 'B', length_m: 2000 },
    ],
  };
  const stretches = layOutBeach(list, programme, room);
  expect(stretches.map(({ zone, length_m }) => [zone, length_m])).toEqual([
    ['A', 800],
    ['B', 2000],
    ['X', 900],
  ]);
});

test('a nest beyond the told length makes the stretch longer instead of falling off', () => {
  const [stretch] = layOutBeach(
    forecasts({ A1: ['A', 950, 0.1], A2: ['A', -40, 0.1] }),
    { zones: [{ zone: 'A', length_m: 800 }] },
    room,
  );
  expect(stretch).toMatchObject({ from_m: -40, length_m: 990 });
});

test('labels of neighbours never overlap; the likelier nest gets the lower lane', () => {
  const list = forecasts({
    A1: ['A', 500, 0.5],
    A2: ['A', 510, 0.3],
    A3: ['A', 520, 0.25],
    A4: ['A', 5000, 0.25],
  });
  const [stretch] = layOutBeach(list, {}, room);
  const lanes = Object.fromEntries(
    (stretch?.marks ?? []).map(({ forecast, lane }) => [forecast.record.nest.id, lane]),
  );
  expect(lanes).toEqual({ A1: 0, A2: 1, A3: null, A4: 0 });
});

test('unlikely nests are drawn without a label, nests without a place are counted', () => {
  const [stretch] = layOutBeach(
    forecasts({ A1: ['A', 500, 0.01], A2: ['A', null, 0.4] }),
    {},
    room,
  );
  expect(stretch?.marks).toMatchObject([{ chance: 'low', lane: null }]);
  expect(stretch?.unplaced).toBe(1);
});

test('the scale bar has a round length of at most a quarter', () => {
  expect([3400, 900, 120, 2000, 8000].map((m) => scaleBar_m(m, 'metric'))).toEqual([
    500, 200, 20, 500, 2000,
  ]);
});

test('in feet the scale bar is round in feet, and from a mile on in miles', () => {
  const bar_m = (longest_m: number): number => scaleBar_m(longest_m, 'feet');
  expect([3400, 900, 120].map((m) => Math.round(bar_m(m) / foot_m))).toEqual([2000, 500, 50]);
  expect([8000, 14_000].map((m) => bar_m(m) / mile_m)).toEqual([1, 2]);
  for (const longest_m of [1, 33, 700, 6400, 6450, 90_000]) {
    expect(bar_m(longest_m), String(longest_m)).toBeLessThanOrEqual(Math.max(1, longest_m / 4));
  }
});

test('a name longer than the drawing is cut where it ends, letter by letter', () => {
  const narrow = { ...room, width_px: 70 };
  expect(fitting('North Cove', narrow)).toBe('North Cove');
  expect(fitting('North Coves', narrow)).toBe('North Cov…');
  expect(fitting('🐢'.repeat(10), narrow)).toBe('🐢'.repeat(10));
  expect(fitting('🐢'.repeat(10_000), narrow)).toBe(`${'🐢'.repeat(9)}…`);
});
