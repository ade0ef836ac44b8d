import { type Candidates } from './candidates.ts';
import { type PriorRows, priorOver } from './prior.ts';

/** Probabilities of each candidate night and of never; they sum to 1. */
export interface NestOdds {
  readonly candidates: Candidates;
  readonly byNight: Float64Array;
  readonly never: number;
}

/**
 * The log of what a nest says of each season level: sum over nights of p(night | level) L(night),
 * plus never. The same value everywhere for a nest that says nothing.
 */
export function logByLevel(
  rows: PriorRows,
  levels: number,
  never: number,
  log: Float64Array,
): Float64Array {
  const byLevel = new Float64Array(levels);
  if (rows === null) return byLevel;
  const count = log.length - 1;
  const largest = largestOf(log);
  if (largest === -Infinity) return byLevel; // what was noted cannot be: it teaches nothing
  const likelihood = log.map((value) => Math.exp(value - largest));
  const base = never * likelihood[count]!;
  for (let level = 0; level < levels; level++) {
    let sum = 0;
    const start = level * count;
    for (let c = 0; c < count; c++) sum += rows[start + c]! * likelihood[c]!;
    byLevel[level] = Math.log(Math.max(base + (1 - never) * sum, Number.MIN_VALUE));
  }
  return byLevel;
}

/**
 * The posterior of a nest: its prior over the weights of the season level given all other nests,
 * times the likelihood of what was noted. Falls back on the prior when every night is ruled out.
 */
export function nestOdds(
  candidates: Candidates,
  rows: PriorRows,
  weights: Float64Array,
  never: number,
  log: Float64Array,
): NestOdds {
  return oddsFrom(candidates, priorOver(rows, candidates.count, weights), never, log);
}

/** As `nestOdds`, from a prior over the candidate nights. */
export function oddsFrom(
  candidates: Candidates,
  prior: Float64Array,
  never: number,
  log: Float64Array,
): NestOdds {
  const { count } = candidates;
  const largest = largestOf(log);
  const byNight = new Float64Array(count);
  let total = 0;
  for (let c = 0; c < count; c++) {
    const weight =
      (1 - never) * prior[c]! * (largest === -Infinity ? 1 : Math.exp(log[c]! - largest));
    byNight[c] = weight;
    total += weight;
  }
  const neverWeight = never * (largest === -Infinity ? 1 : Math.exp(log[count]! - largest));
  total += neverWeight;
  if (total <= 0) return oddsFrom(candidates, prior, never, new Float64Array(count + 1));
  for (let c = 0; c < count; c++) byNight[c] = byNight[c]! / total;
  return { candidates, byNight, never: neverWeight / total };
}

function largestOf(values: Float64Array): number {
  let largest = -Infinity;
  for (const value of values) if (value > largest) largest = value;
  return largest;
}
