/**
 * Reference for the shared effects, by brute force: one effect that many cases share, on a grid: its posterior given all of them, and given all but
 * one. Exact up to the grid.
 */
export interface SharedLevel {
  readonly grid: Float64Array;
  /** Sums to 1. */
  readonly posterior: Float64Array;
  readonly mean: number;
  readonly sd: number;
  /** Writes the posterior given all cases but this one; sums to 1. */
  readonly without: (logLikelihood: Float64Array, into: Float64Array) => void;
}

/**
 * Learns the level from each case's log-likelihood on the grid, with a normal prior of mean 0.
 * Cases that say nothing have the same value everywhere.
 */
export function learnLevel(
  grid: Float64Array,
  priorSd: number,
  cases: Iterable<Float64Array>,
): SharedLevel {
  const total = grid.map((eta) => -((eta / priorSd) ** 2) / 2);
  for (const logLikelihood of cases) {
    for (let index = 0; index < total.length; index++) total[index]! += logLikelihood[index]!;
  }
  const posterior = new Float64Array(grid.length);
  normalise(total, posterior);
  let mean = 0;
  let square = 0;
  grid.forEach((eta, index) => {
    mean += posterior[index]! * eta;
    square += posterior[index]! * eta * eta;
  });
  const difference = new Float64Array(grid.length);
  return {
    grid,
    posterior,
    mean,
    sd: Math.sqrt(Math.max(0, square - mean * mean)),
    without(logLikelihood, into) {
      for (let index = 0; index < total.length; index++) {
        difference[index] = total[index]! - logLikelihood[index]!;
      }
      normalise(difference, into);
    },
  };
}

/** Probabilities from log weights, without overflow. Throws when every weight is zero. */
export function normalise(logWeights: Float64Array, into: Float64Array): void {
  let largest = -Infinity;
  for (let index = 0; index < logWeights.length; index++) {
    if (logWeights[index]! > largest) largest = logWeights[index]!;
  }
  if (!Number.isFinite(largest)) throw new RangeError('No weight is above zero.');
  let sum = 0;
  for (let index = 0; index < logWeights.length; index++) {
    const weight = Math.exp(logWeights[index]! - largest);
    into[index] = weight;
    sum += weight;
  }
  for (let index = 0; index < logWeights.length; index++) into[index] = into[index]! / sum;
}
