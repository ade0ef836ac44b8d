import { turn_deg } from '../numerics/angle.ts';

/** The span from the leftmost to the rightmost track, seen from the nest with the tracks ahead. */
export interface Fan {
  /** Bearings, degrees clockwise from true north; the fan runs clockwise from left to right. */
  readonly left_deg: number;
  readonly right_deg: number;
  /** Its width, 0..360. */
  readonly width_deg: number;
}

/** A fan between two outermost bearings that somebody took, clockwise from left to right. */
export function fanBetween(left_deg: number, right_deg: number): Fan {
  const [left, right] = [turn_deg(left_deg), turn_deg(right_deg)];
  return { left_deg: left, right_deg: right, width_deg: turn_deg(right - left) };
}

/**
 * The narrowest fan that holds every track: what is left of the circle beside its widest gap. Null
 * without tracks. One track has a fan of width 0.
 */
export function fanOf(bearings_deg: readonly number[]): Fan | null {
  const sorted = bearings_deg.map(turn_deg).sort((a, b) => a - b);
  const first = sorted[0];
  if (first === undefined) return null;
  let [widest, left, right] = [-1, first, first];
  sorted.forEach((bearing, index) => {
    const next = sorted[index + 1] ?? first + 360;
    if (next - bearing > widest) [widest, left, right] = [next - bearing, turn_deg(next), bearing];
  });
  return { left_deg: left, right_deg: right, width_deg: turn_deg(right - left) };
}

/** The direction half way through a fan, degrees 0 up to 360. */
export function bisector(fan: Fan): number {
  return turn_deg(fan.left_deg + fan.width_deg / 2);
}
