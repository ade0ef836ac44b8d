import { describe, expect, test } from 'vitest';
import { besideRows, surfaceRows } from '../../../src/core/forecast/cue-tables.ts';
import { durationProbabilities, residualCdf } from '../../../src/core/forecast/incubation.ts';

// Truth: the worked one-look examples of the model's description, section 6, to three decimals ("the
// last digits depend on where the prior is cut"). They pin the algebra of one look: prior in days
// 0.90 N(m, s) + 0.10 N(m + 2, 2.2 s), nest not up before tonight, P(never) .08, no shared effect.
const tolerance = 5e-4;

const m = 54;
const s = 4.5;
const pNever = 0.08;
const last = 105;

type Row = readonly number[];

function rowAt(table: readonly (readonly [number, Row])[], nightsLeft: number): Row {
  const exact = table.find(([half]) => half === 2 * Math.min(10, nightsLeft));
  if (exact === undefined) throw new Error(`no row for ${nightsLeft}`);
  return exact[1];
}

/** Posterior over the nights from tonight on, and never, after one look. */
function afterOneLook(
  night: number,
  likelihood: (nightsLeft: number) => number,
  likelihoodNever: number,
) {
  const weights: number[] = [];
  for (let d = night; d <= last; d++) {
    const prior = residualCdf(d + 0.5 - m, s, 2) - residualCdf(d - 0.5 - m, s, 2);
    weights.push((1 - pNever) * prior * likelihood(d - night));
  }
  const never = pNever * likelihoodNever;
  const total = weights.reduce((sum, weight) => sum + weight, never);
  return { tonight: weights[0]! / total, tomorrow: weights[1]! / total, never: never / total };
}

describe('the worked one-look examples hold', () => {
  const probeNever = [0.93, 0.062, 0.007, 0.001];
  const surface = (state: number) => (k: number) => rowAt(surfaceRows, k)[state]!;
  const probe = (state: number) => (k: number) => rowAt(besideRows, k)[state]!;
  const both = (seen: number, heard: number) => (k: number) => surface(seen)(k) * probe(heard)(k);
  const neverBoth = (seen: number, heard: number) => surface(seen)(10) * probeNever[heard]!;

  test('night 54 without a note', () => {
    const found = afterOneLook(54, () => 1, 1);
    expect(Math.abs(found.tonight - 0.131256)).toBeLessThan(tolerance);
    expect(Math.abs(found.tomorrow - 0.128314)).toBeLessThan(tolerance);
    expect(Math.abs(found.never - 0.136522)).toBeLessThan(tolerance);
  });

  test('a depression on the surface', () => {
    const found = afterOneLook(54, surface(2), surface(2)(10));
    expect(Math.abs(found.tonight - 0.376249)).toBeLessThan(tolerance);
    expect(Math.abs(found.tomorrow - 0.262069)).toBeLessThan(tolerance);
    expect(Math.abs(found.never - 0.009784)).toBeLessThan(tolerance);
  });

  test('a depression, and a waterfall of scratching by probe', () => {
    const found = afterOneLook(54, both(2, 3), neverBoth(2, 3));
    expect(Math.abs(found.tonight - 0.691065)).toBeLessThan(tolerance);
    expect(Math.abs(found.tomorrow - 0.223483)).toBeLessThan(tolerance);
    expect(Math.abs(found.never - 0.000064)).toBeLessThan(tolerance);
  });

  test('smooth and quiet by probe', () => {
    const found = afterOneLook(54, both(0, 0), neverBoth(0, 0));
    expect(Math.abs(found.tonight - 0.015529)).toBeLessThan(tolerance);
    expect(Math.abs(found.tomorrow - 0.035249)).toBeLessThan(tolerance);
    expect(Math.abs(found.never - 0.277703)).toBeLessThan(tolerance);
  });

  test('night 65, still smooth and quiet by probe', () => {
    const found = afterOneLook(65, both(0, 0), neverBoth(0, 0));
    expect(Math.abs(found.tonight - 0.003996)).toBeLessThan(tolerance);
    expect(Math.abs(found.never - 0.887594)).toBeLessThan(2 * tolerance);
  });
});

test('the durations on the log scale are those of the days near the median', () => {
  // At 54 nights a log spread of 4.5/54 is 4.5 nights: the night of the median has the same chance
  // on both scales, up to the half night that the log scale is skewed by.
  const onLog = new Float64Array(71);
  durationProbabilities(Math.log(m), s / m, onLog, 0);
  const inDays = residualCdf(54.5 - m, s, 2) - residualCdf(53.5 - m, s, 2);
  expect(Math.abs(onLog[54 - 35]! - inDays)).toBeLessThan(0.002);
  expect(onLog.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
});
