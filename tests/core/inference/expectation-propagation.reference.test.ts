import { describe, expect, test } from 'vitest';
import { propagate } from '../../../src/core/inference/expectation-propagation.ts';
import {
  type EvenGrid,
  gridPoints,
  gridTo,
  weightsOfNormal,
} from '../../../src/core/inference/grid-function.ts';
import { normalCdf } from '../../../src/core/numerics/normal.ts';

const grid = gridTo(0.45, 0.0125);

/** Log-likelihood on a grid. */
const onGrid = (at: EvenGrid, log: (eta: number) => number): Float64Array =>
  gridPoints(at).map(log);

/** Cases of the kind nests are: seen on one night, not yet up, and one that may never come up. */
const cases: ((eta: number) => number)[] = [
  (eta) => -(((eta - 0.06) / 0.08) ** 2) / 2,
  (eta) => Math.log(0.08 + 0.92 * (1 - normalCdf((0.09 - eta) / 0.08))),
  (eta) => Math.log(0.08 + 0.92 * (1 - normalCdf((0.02 - eta) / 0.08))),
  (eta) => Math.log(0.1 + Math.exp(-(((eta + 0.02) / 0.1) ** 2) / 2)),
];

describe('one shared effect', () => {
  // Truth: brute-force quadrature on a grid ten times finer.
  const fine = gridTo(0.6, 0.00125);
  const priorSd = 0.07;

  function byQuadrature(left: number | null): { mean: number; sd: number } {
    const weights = gridPoints(fine).map((eta) =>
      Math.exp(
        -((eta / priorSd) ** 2) / 2 +
          cases.reduce((sum, log, index) => sum + (index === left ? 0 : log(eta)), 0),
      ),
    );
    const total = weights.reduce((sum, w) => sum + w, 0);
    const points = gridPoints(fine);
    const mean = weights.reduce((sum, w, k) => sum + w * points[k]!, 0) / total;
    const square = weights.reduce((sum, w, k) => sum + w * points[k]! ** 2, 0) / total;
    return { mean, sd: Math.sqrt(square - mean * mean) };
  }

  const found = propagate(
    {
      count: cases.length,
      terms: 1,
      effect: new Int32Array(cases.length),
      weight: new Float64Array(cases.length).fill(1),
      grid,
      logLikelihood: cases.map((log) => onGrid(grid, log)),
    },
    Float64Array.of(priorSd ** -2),
    { tolerance: 1e-9 },
  );

  test('has the mean and spread that quadrature gives', () => {
    const truth = byQuadrature(null);
    expect(found.converged).toBe(true);
    // A tenth of a day at 55 days is 0.0018: the normal is far closer than anyone can see.
    expect(Math.abs(found.mean[0]! - truth.mean)).toBeLessThan(5e-4);
    expect(Math.abs(Math.sqrt(found.covariance[0]!) - truth.sd)).toBeLessThan(5e-4);
  });

  test('and so has each case left out', () => {
    cases.forEach((_, index) => {
      // 0.002 is a tenth of a night at 55: with four cases only, one of them far from normal.
      const truth = byQuadrature(index);
      expect(Math.abs(found.cavityMean[index]! - truth.mean)).toBeLessThan(2e-3);
      expect(Math.abs(found.cavitySd[index]! - truth.sd)).toBeLessThan(2e-3);
    });
  });

  test('and the evidence is what quadrature gives', () => {
    const points = gridPoints(fine);
    const truth = Math.log(
      points.reduce(
        (sum, eta) =>
          sum +
          (fine.step / (priorSd * Math.sqrt(2 * Math.PI))) *
            Math.exp(-((eta / priorSd) ** 2) / 2 + cases.reduce((log, f) => log + f(eta), 0)),
        0,
      ),
    );
    expect(Math.abs(found.logEvidence - truth)).toBeLessThan(2e-3);
  });
});

describe('two shared effects', () => {
  // Cases 0 and 1 share effects A; 2 and 3 share A + B. Truth: quadrature over both.
  const sd = [0.07, 0.03];
  const fine = gridTo(0.4, 0.004);
  const loads = [
    [1, 0],
    [1, 0],
    [1, 1],
    [1, 1],
  ];
  const found = propagate(
    {
      count: 4,
      terms: 2,
      effect: Int32Array.from([0, 1, 0, 1, 0, 1, 0, 1]),
      weight: Float64Array.from(loads.flat()),
      grid,
      logLikelihood: cases.map((log) => onGrid(grid, log)),
    },
    Float64Array.of(sd[0]! ** -2, 0, 0, sd[1]! ** -2),
    { tolerance: 1e-9 },
  );

  test('have the means that quadrature over both gives', () => {
    const points = gridPoints(fine);
    let total = 0;
    const mean = [0, 0];
    for (const a of points) {
      for (const b of points) {
        const log =
          -((a / sd[0]!) ** 2 + (b / sd[1]!) ** 2) / 2 +
          cases.reduce((sum, f, k) => sum + f(a * loads[k]![0]! + b * loads[k]![1]!), 0);
        const weight = Math.exp(log);
        total += weight;
        mean[0]! += weight * a;
        mean[1]! += weight * b;
      }
    }
    expect(Math.abs(found.mean[0]! - mean[0]! / total)).toBeLessThan(5e-4);
    expect(Math.abs(found.mean[1]! - mean[1]! / total)).toBeLessThan(5e-4);
  });
});

test('normal cases are exact: the update of a normal mean has a closed form', () => {
  // Three emerged nests with mean 52, prior 55, known spread 4.5, between-beach variance 15.75: 52.91,
  // and a predictive SD of 5.00 (closed form; the beach learning check of the model, section 6).
  const days = gridTo(20, 0.25);
  const seen = [50, 52, 54].map((nights) =>
    onGrid(days, (shift) => -(((nights - 55 - shift) / 4.5) ** 2) / 2),
  );
  const { mean, covariance } = propagate(
    {
      count: 3,
      terms: 1,
      effect: new Int32Array(3),
      weight: new Float64Array(3).fill(1),
      grid: days,
      logLikelihood: seen,
    },
    Float64Array.of(1 / 15.75),
    { tolerance: 1e-10, maxSweeps: 100 },
  );
  const precision = 1 / 15.75 + 3 / 4.5 ** 2;
  expect(55 + mean[0]!).toBeCloseTo(55 - 3 * (3 / 4.5 ** 2 / precision), 4);
  expect(55 + mean[0]!).toBeCloseTo(52.9, 1);
  expect(Math.sqrt(covariance[0]! + 4.5 ** 2)).toBeCloseTo(5.0, 2);
});

test('cases that contradict each other and say almost nothing still end in numbers', () => {
  const log = [-0.3, 0.3, 0.0].map((at) =>
    onGrid(grid, (eta) => Math.log(1e-6 + Math.exp(-(((eta - at) / 0.01) ** 2) / 2))),
  );
  const found = propagate(
    {
      count: 3,
      terms: 1,
      effect: new Int32Array(3),
      weight: new Float64Array(3).fill(1),
      grid,
      logLikelihood: log,
    },
    Float64Array.of(0.07 ** -2),
  );
  for (const value of [...found.mean, ...found.covariance, ...found.cavitySd, found.logEvidence]) {
    expect(Number.isFinite(value)).toBe(true);
  }
});

test('weights on the grid integrate smooth functions against wide and narrow normals', () => {
  // Truth: closed forms of the moments of a normal.
  const points = gridPoints(grid);
  const into = new Float64Array(grid.count);
  for (const sd of [0.001, 0.01, 0.05]) {
    for (const mean of [-0.1, 0.0037, 0.08]) {
      weightsOfNormal(grid, mean, sd, into);
      const moment = (f: (eta: number) => number): number =>
        points.reduce((sum, eta, k) => sum + into[k]! * f(eta), 0);
      expect(moment(() => 1)).toBeCloseTo(1, 12);
      expect(moment((eta) => eta)).toBeCloseTo(mean, 6);
      expect(moment((eta) => eta * eta)).toBeCloseTo(mean * mean + sd * sd, 6);
      expect(moment((eta) => Math.exp(5 * eta))).toBeCloseTo(
        Math.exp(5 * mean + (5 * sd) ** 2 / 2),
        4,
      );
    }
  }
});
