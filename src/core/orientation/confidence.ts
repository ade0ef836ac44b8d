import { cos_deg } from '../numerics/angle.ts';
import type { CircularMean } from './circular-mean.ts';

/** How far either side of the mean direction the true one lies with 95 % confidence, or why not. */
export type Confidence =
  | { readonly kind: 'within'; readonly half_deg: number }
  /** Fewer tracks than the method is worth anything for: look at the range instead. */
  | { readonly kind: 'too few'; readonly least: number }
  /** So widely spread that no direction is excluded. */
  | { readonly kind: 'any direction' };

/** Chi-square with one degree of freedom, upper 5 %. */
const chiSquare = 3.8415;
/** 97.5 % point of the normal distribution. */
const normal = 1.96;
/** Fewer tracks than these say nothing of confidence (expert advice, no source). */
export const leastTracks = 8;
/** From this many tracks on Fisher's method, which assumes no shape, may be used (Fisher 1993, 4.4.4). */
export const manyTracks = 25;

/**
 * 95 % confidence about the mean direction, for any distribution that has one hump. Undefined when
 * 2 R^2 <= n chi^2. Source: Zar 2010, eqs. 26.24 and 26.25 (after Upton 1986).
 */
export function confidence({ n, resultant, r }: CircularMean, least = leastTracks): Confidence {
  if (n < least) return { kind: 'too few', least };
  const r2 = resultant * resultant;
  if (2 * r2 <= n * chiSquare) return { kind: 'any direction' };
  const cosine =
    r <= 0.9
      ? Math.sqrt((2 * n * (2 * r2 - n * chiSquare)) / (4 * n - chiSquare)) / resultant
      : Math.sqrt(n * n - (n * n - r2) * Math.exp(chiSquare / n)) / resultant;
  return { kind: 'within', half_deg: (180 / Math.PI) * Math.acos(Math.min(1, cosine)) };
}

/**
 * The same for many tracks, without assuming a shape: from the sample's dispersion.
 * Source: Fisher 1993, Statistical Analysis of Circular Data, sections 2.3.2 and 4.4.4.
 */
export function largeSampleConfidence(
  bearings_deg: readonly number[],
  mean: CircularMean,
): Confidence {
  if (bearings_deg.length < manyTracks) return { kind: 'too few', least: manyTracks };
  const { mean_deg, r, n } = mean;
  if (mean_deg === null) return { kind: 'any direction' };
  const second = bearings_deg.reduce((sum, deg) => sum + cos_deg(2 * (deg - mean_deg)), 0) / n;
  const sine = normal * Math.sqrt((1 - second) / (2 * r * r) / n);
  if (sine > 1) return { kind: 'any direction' };
  return { kind: 'within', half_deg: (180 / Math.PI) * Math.asin(sine) };
}
