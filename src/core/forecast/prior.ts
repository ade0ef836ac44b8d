import type { Species } from '../domain/species.ts';
import type { Candidates } from './candidates.ts';
import { durationProbabilities, durations, incubation } from './incubation.ts';

/**
 * Prior probability of each candidate night given the season level, for every level of a grid;
 * grid-major, each row sums to 1. Null in `rows` when the level says nothing: the lay night is not
 * known and every candidate is as likely as the next.
 */
export type PriorRows = Float64Array | null;

/** Gives the prior rows of nests, computing each kind of nest once. */
export class PriorTables {
  readonly #grid: Float64Array;
  readonly #oneNight = new Map<Species | null, Float64Array>();
  readonly #tables = new Map<string, Float64Array>();

  constructor(grid: Float64Array) {
    this.#grid = grid;
  }

  rowsFor(species: Species | null, { layNights }: Candidates): PriorRows {
    if (layNights === null) return null;
    const key = `${species ?? ''}|${layNights}`;
    let rows = this.#tables.get(key);
    if (rows === undefined) {
      this.#tables.set(key, (rows = spreadOver(layNights, this.#rowsOfOneNight(species))));
    }
    return rows;
  }

  #rowsOfOneNight(species: Species | null): Float64Array {
    let rows = this.#oneNight.get(species);
    if (rows === undefined) {
      rows = new Float64Array(this.#grid.length * durations);
      const { median, spread } = incubation(species);
      for (let index = 0; index < this.#grid.length; index++) {
        const eta = this.#grid[index]!;
        durationProbabilities(median, spread / median, eta, rows, index * durations);
      }
      this.#oneNight.set(species, rows);
    }
    return rows;
  }
}

/** A nest laid on one of `layNights` nights, each as likely: the mean of the shifted durations. */
function spreadOver(layNights: number, oneNight: Float64Array): Float64Array {
  if (layNights === 1) return oneNight;
  const count = durations + layNights - 1;
  const levels = oneNight.length / durations;
  const rows = new Float64Array(levels * count);
  for (let level = 0; level < levels; level++) {
    for (let shift = 0; shift < layNights; shift++) {
      for (let d = 0; d < durations; d++) {
        const cell = level * count + shift + d;
        rows[cell] = rows[cell]! + oneNight[level * durations + d]! / layNights;
      }
    }
  }
  return rows;
}

/**
 * Mean of the prior rows over weights on the grid; sums to 1. Interpolation weights may be slightly
 * negative: a night they would take below zero gets none.
 */
export function priorOver(rows: PriorRows, count: number, weights: Float64Array): Float64Array {
  const mean = new Float64Array(count);
  if (rows === null) return mean.fill(1 / count);
  for (let index = 0; index < weights.length; index++) {
    const weight = weights[index]!;
    if (Math.abs(weight) < 1e-12) continue; // far below what any answer shows
    const start = index * count;
    for (let c = 0; c < count; c++) mean[c] = mean[c]! + weight * rows[start + c]!;
  }
  let total = 0;
  for (let c = 0; c < count; c++) {
    if (mean[c]! < 0) mean[c] = 0;
    total += mean[c]!;
  }
  for (let c = 0; c < count; c++) mean[c] = mean[c]! / total;
  return mean;
}
