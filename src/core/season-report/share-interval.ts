/** A share, and the bounds within which the share behind it lies by chance alone. */
export interface ShareInterval {
  readonly share: number;
  readonly low: number;
  readonly high: number;
}

/** Standard deviations to each side that hold 90 % of a normal distribution (table value). */
const z90 = 1.6449;

/**
 * The share of `n` that happened, with its 90 % score interval; null of none. Source: Wilson 1927,
 * Journal of the American Statistical Association 22:209-212. `count` may be a mean and need not be
 * whole. `z` = standard deviations to each side.
 */
export function shareInterval(count: number, n: number, z = z90): ShareInterval | null {
  if (n <= 0) return null;
  const share = count / n;
  const z2 = z * z;
  const middle = (share + z2 / (2 * n)) / (1 + z2 / n);
  const half = (z / (1 + z2 / n)) * Math.sqrt((share * (1 - share)) / n + z2 / (4 * n * n));
  return { share, low: Math.max(0, middle - half), high: Math.min(1, middle + half) };
}
