import { cubicWeights } from '../inference/grid-function.ts';
import { durationProbabilities, durations } from './incubation.ts';
import { oddsTimes } from '../numerics/odds.ts';
import { levelGrid } from './shared-effects.ts';

/** Centres of the distribution of durations that are tabled: log nights, by the level grid's step. */
const centres = (() => {
  const { step, first, count } = levelGrid;
  const lowest = Math.floor(Math.log(32) / step) + Math.round(first / step);
  const highest = Math.ceil(Math.log(110) / step) - Math.round(first / step);
  return { first: lowest * step, step, count: highest - lowest + 1, levels: count };
})();

/** Spreads are tabled at every tenth of a night. */
const spreadStep_nights = 0.1;
/** The spread is told in nights at an incubation of this many. */
const spreadAt_nights = 55;

/**
 * Prior of a nest's duration at every season level: since log D = log(central) + level + e, it is a
 * stretch of one table of rows by centre, shifted by the nest's own centre. `start` and `cubic` say
 * which rows stand for the first level; `layNights` on how many nights it may have been laid.
 */
export interface NestPrior {
  readonly rows: Float64Array;
  readonly start: number;
  readonly cubic: Float64Array;
  readonly layNights: number;
}

/** Tables worked out so far, by spread in steps: the same for every season. */
const tables = new Map<number, Float64Array>();

/**
 * The prior of a nest with this central duration in nights and this spread in nights (at 55), laid
 * on one of `layNights` nights, each as likely.
 */
export function priorOf(
  central_nights: number,
  spread_nights: number,
  layNights: number,
): NestPrior {
  const cubic = new Float64Array(4);
  const start = cubicWeights(centres, Math.log(central_nights) + levelGrid.first, cubic);
  return { rows: rowsFor(spread_nights), start, cubic, layNights };
}

function rowsFor(spread_nights: number): Float64Array {
  const key = Math.max(1, Math.round(spread_nights / spreadStep_nights));
  let rows = tables.get(key);
  if (rows === undefined) {
    rows = new Float64Array(centres.count * durations);
    const s = (key * spreadStep_nights) / spreadAt_nights;
    for (let row = 0; row < centres.count; row++) {
      const centre = centres.first + row * centres.step;
      durationProbabilities(centre, s, rows, row * durations);
    }
    tables.set(key, rows);
  }
  return rows;
}

/**
 * Mean of a likelihood over the prior, at every level: sum over the candidate nights of
 * p(night | level) L(night). `likelihood` by candidate night; `into` by level.
 */
export function meanByLevel(
  { rows, start, cubic, layNights }: NestPrior,
  likelihood: Float64Array,
  into: Float64Array,
): void {
  ofDuration.fill(0);
  for (let shift = 0; shift < layNights; shift++) {
    for (let d = 0; d < durations; d++) {
      ofDuration[d] = ofDuration[d]! + likelihood[shift + d]! / layNights;
    }
  }
  // A nest that is up leaves a night or a few: only those durations count.
  let least = 0;
  let most = durations;
  while (least < most && ofDuration[least] === 0) least++;
  while (most > least && ofDuration[most - 1] === 0) most--;
  into.fill(0);
  const levels = levelGrid.count;
  for (let row = 0; row < levels + 3; row++) {
    let sum = 0;
    const from = rowAt(start + row) * durations;
    for (let d = least; d < most; d++) sum += rows[from + d]! * ofDuration[d]!;
    for (let k = 0; k < 4; k++) {
      const level = row - k;
      if (level >= 0 && level < levels) into[level] = into[level]! + cubic[k]! * sum;
    }
  }
}

/**
 * The prior over the candidate nights for weights on the level grid; sums to 1. Every night as
 * likely when there is no prior. Interpolation weights may be slightly negative: a night they would
 * take below zero gets none.
 */
export function priorOver(
  prior: NestPrior | null,
  count: number,
  weights: Float64Array,
): Float64Array {
  const byNight = new Float64Array(count);
  if (prior === null) return byNight.fill(1 / count);
  const { rows, start, cubic, layNights } = prior;
  byDuration.fill(0);
  for (let row = 0; row < weights.length + 3; row++) {
    let weight = 0;
    for (let k = 0; k < 4; k++) weight += cubic[k]! * (weights[row - k] ?? 0);
    if (Math.abs(weight) < 1e-12) continue; // far below what any answer shows
    const from = rowAt(start + row) * durations;
    for (let d = 0; d < durations; d++) byDuration[d] = byDuration[d]! + weight * rows[from + d]!;
  }
  let total = 0;
  for (let d = 0; d < durations; d++) {
    if (byDuration[d]! < 0) byDuration[d] = 0;
    total += byDuration[d]!;
  }
  for (let shift = 0; shift < layNights; shift++) {
    for (let d = 0; d < durations; d++) {
      byNight[shift + d] = byNight[shift + d]! + byDuration[d]! / (total * layNights);
    }
  }
  return byNight;
}

/**
 * The same prior with the odds of each night from `from` on, against all later ones, multiplied by a
 * factor; what lies before `from`, and the total, stay as they were.
 */
export function hasten(byNight: Float64Array, from: number, factor: number): Float64Array {
  if (factor === 1) return byNight;
  const hastened = byNight.slice();
  const start = Math.max(0, from);
  let later = 0;
  for (let c = start; c < byNight.length; c++) later += byNight[c]!;
  let left = later;
  for (let c = start; c < byNight.length; c++) {
    if (later <= 0) break;
    const sooner = oddsTimes(Math.min(1, byNight[c]! / later), factor);
    later -= byNight[c]!;
    hastened[c] = left * sooner;
    left -= hastened[c]!;
  }
  return hastened;
}

// Working space, kept between calls.
const ofDuration = new Float64Array(durations);
const byDuration = new Float64Array(durations);

/** Rows beyond the table are read as its ends: such durations are out of the question anyway. */
function rowAt(row: number): number {
  return row < 0 ? 0 : row >= centres.count ? centres.count - 1 : row;
}
