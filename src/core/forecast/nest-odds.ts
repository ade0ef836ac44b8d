import type { Night } from '../domain/night.ts';
import { type Candidates } from './candidates.ts';
import { type NestPrior, hasten, meanByLevel, priorOver } from './prior.ts';
import { levelGrid } from './shared-effects.ts';

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
  prior: NestPrior | null,
  never: number,
  log: Float64Array,
): Float64Array {
  const byLevel = new Float64Array(levelGrid.count);
  if (prior === null) return byLevel;
  const largest = largestOf(log);
  if (largest === -Infinity) return byLevel; // what was noted cannot be: it teaches nothing
  if (space.length < log.length) space = new Float64Array(2 * log.length);
  const likelihood = space;
  for (let c = 0; c < log.length; c++) {
    likelihood[c] = log[c] === -Infinity ? 0 : Math.exp(log[c]! - largest);
  }
  const base = never * likelihood[log.length - 1]!;
  meanByLevel(prior, likelihood, byLevel);
  for (let level = 0; level < byLevel.length; level++) {
    const value = base + (1 - never) * Math.max(0, byLevel[level]!);
    byLevel[level] = Math.log(Math.max(value, 1e-300));
  }
  return byLevel;
}

// Working space, kept between calls.
let space = new Float64Array(128);

/**
 * The posterior of a nest: its prior over the weights of the season level given all other nests,
 * times the likelihood of what was noted. Falls back on the prior when every night is ruled out.
 * `hastened` = the night of asking, and the factor of `hasten` from it on.
 */
export function nestOdds(
  candidates: Candidates,
  prior: NestPrior | null,
  weights: Float64Array,
  never: number,
  log: Float64Array,
  hastened: { readonly from: Night; readonly factor: number } | null = null,
): NestOdds {
  const plain = priorOver(prior, candidates.count, weights);
  const { from, factor } = hastened ?? { from: candidates.first, factor: 1 };
  return oddsFrom(candidates, hasten(plain, from - candidates.first, factor), never, log);
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
