import { cos_deg } from '../numerics/angle.ts';
import type { CircularMean } from './circular-mean.ts';

/** Outcome of a test against directions spread evenly all round. */
export interface Rayleigh {
  /** z = n r^2. */
  readonly z: number;
  /** Chance of a resultant as long as this when every direction is equally likely. */
  readonly p: number;
}

/**
 * Rayleigh's test: is there one direction at all? It looks for a single mode, and misses two that
 * face each other. p by the approximation of Zar 2010 (eq. 27.4, after Greenwood and Durand), good to
 * three decimals from about five tracks on.
 */
export function rayleigh({ n, resultant, r }: CircularMean): Rayleigh {
  const p = Math.exp(Math.sqrt(1 + 4 * n + 4 * (n * n - resultant * resultant)) - (1 + 2 * n));
  return { z: n * r * r, p: Math.min(1, p) };
}

/** Outcome of a test against evenly spread directions when one direction was expected beforehand. */
export interface Expected {
  /** V = R cos(mean - expected). */
  readonly v: number;
  /** u = V sqrt(2/n); compare with the upper tail of the normal distribution. */
  readonly u: number;
}

/**
 * The V test: do the directions gather around one that was named before looking, such as the line to
 * the sea? Null when there is no mean direction. Source: Zar 2010, eqs. 27.5 and 27.6.
 */
export function gathersAround(
  { n, mean_deg, resultant }: CircularMean,
  expected_deg: number,
): Expected | null {
  if (mean_deg === null) return null;
  const v = resultant * cos_deg(mean_deg - expected_deg);
  return { v, u: v * Math.sqrt(2 / n) };
}
