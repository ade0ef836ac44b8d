import jstat from 'jstat';
import { cholesky, solveCholesky } from '../../src/core/numerics/cholesky.ts';

/** Counts of ranks in equal bins between 0 and 1, and how far they are from uniform. */
export interface Uniformity {
  readonly n: number;
  readonly counts: readonly number[];
  readonly chiSquare: number;
  /** Chance of a chi-square as large when the ranks are uniform (jstat). */
  readonly p: number;
}

/** Chi-square test of uniform ranks; for ranks that are independent of each other. */
export function uniformity(ranks: readonly number[], bins: number): Uniformity {
  const counts = new Array<number>(bins).fill(0);
  for (const rank of ranks) counts[Math.min(bins - 1, Math.floor(rank * bins))]! += 1;
  const expected = ranks.length / bins;
  const chiSquare = counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
  return { n: ranks.length, counts, chiSquare, p: 1 - jstat.chisquare.cdf(chiSquare, bins - 1) };
}

/**
 * As `uniformity`, for groups of ranks that depend on each other within a group but not between: the
 * score test D' C^-1 D, with D the groups' summed differences from the expected counts and C the sum of
 * their squares (the robust form; White 1982, "Maximum likelihood estimation of misspecified models",
 * from memory).
 */
export function uniformityOfGroups(groups: readonly number[][], bins: number): Uniformity {
  const size = bins - 1;
  const sum = new Float64Array(size);
  const squares = new Float64Array(size * size);
  for (const ranks of groups) {
    const { counts } = uniformity(ranks, bins);
    const differences = counts.slice(0, size).map((count) => count - ranks.length / bins);
    differences.forEach((a, i) => {
      sum[i] = sum[i]! + a;
      differences.forEach((b, j) => (squares[i * size + j] = squares[i * size + j]! + a * b));
    });
  }
  const factor = new Float64Array(size * size);
  if (!cholesky(squares, size, factor)) throw new RangeError('Too few groups for so many bins.');
  const solved = sum.slice();
  solveCholesky(factor, size, solved);
  const chiSquare = sum.reduce((total, value, i) => total + value * solved[i]!, 0);
  const { n, counts } = uniformity(groups.flat(), bins);
  return { n, counts, chiSquare, p: 1 - jstat.chisquare.cdf(chiSquare, size) };
}

/** Mean and its standard error. */
export function meanOf(values: readonly number[]): { n: number; mean: number; error: number } {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1);
  return { n, mean, error: Math.sqrt(square / n) };
}
