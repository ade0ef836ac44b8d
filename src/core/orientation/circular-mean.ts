import { atan2_deg, cos_deg, sin_deg, turn_deg } from '../numerics/angle.ts';

/**
 * What a set of directions comes to. Absent directions are `undefined direction`: the vectors cancel,
 * and any number given for a mean would be an accident of rounding.
 */
export interface CircularMean {
  readonly n: number;
  /** Mean direction, degrees clockwise from north, 0 up to 360; null when there is none. */
  readonly mean_deg: number | null;
  /** Length of the sum of unit vectors, 0..n. */
  readonly resultant: number;
  /** Mean resultant length r, 0 (all ways) .. 1 (one way). */
  readonly r: number;
  /** Angular deviation s, sqrt(2(1 - r)) in degrees, 0..81. */
  readonly deviation_deg: number;
  /** Circular standard deviation s0, sqrt(-2 ln r) in degrees; null when r is 0. */
  readonly sd_deg: number | null;
}

/** A resultant shorter than this share of n is rounding, not a direction. */
const noDirection = 1e-9;

/** Directions with how many lie in each: ones for single tracks. */
export interface Weighted {
  readonly bearing_deg: number;
  readonly count: number;
}

/**
 * Mean direction and spread of bearings in degrees; null when there are none.
 * Formulas: Zar 2010, Biostatistical Analysis, ch. 26 (C = sum cos, S = sum sin, R = hypot, r = R/n).
 */
export function circularMean(bearings_deg: readonly number[]): CircularMean | null {
  return weightedMean(bearings_deg.map((bearing_deg) => ({ bearing_deg, count: 1 })));
}

/** The same for bearings that were only counted by class: `bearing_deg` is the middle of a class. */
export function weightedMean(classes: readonly Weighted[]): CircularMean | null {
  return summed(classes, 1);
}

/**
 * The same, with r corrected for grouping into classes of `width_deg` (Zar 2010, eq. 26.16):
 * r is multiplied by (d / 2) / sin(d / 2), d in radians.
 */
export function groupedMean(classes: readonly Weighted[], width_deg: number): CircularMean | null {
  const half = (width_deg * Math.PI) / 360;
  return summed(classes, half / Math.sin(half));
}

function summed(classes: readonly Weighted[], correction: number): CircularMean | null {
  let [n, east, north] = [0, 0, 0];
  for (const { bearing_deg, count } of classes) {
    n += count;
    east += count * sin_deg(bearing_deg);
    north += count * cos_deg(bearing_deg);
  }
  if (n === 0) return null;
  const length = Math.hypot(east, north);
  const r = length / n < noDirection ? 0 : Math.min(1, (length / n) * correction);
  return {
    n,
    mean_deg: r === 0 ? null : turn_deg(atan2_deg(east, north)),
    resultant: r * n,
    r,
    deviation_deg: (180 / Math.PI) * Math.sqrt(2 * (1 - r)),
    sd_deg: r === 0 ? null : (180 / Math.PI) * Math.sqrt(-2 * Math.log(r)),
  };
}
