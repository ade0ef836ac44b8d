import { turn_deg } from '../../../core/numerics/angle.ts';

/** A point of the drawing, in its own units. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The dial is drawn on a square of this many units, its middle in the middle. */
export const dialSize = 320;
const middle = dialSize / 2;

/**
 * The point at a bearing and a distance from the middle. `up_deg` is the bearing that points up: the line
 * to the sea, so that the sea lies ahead as it does on the beach.
 */
export function pointAt(bearing_deg: number, radius: number, up_deg: number): Point {
  const turn = ((bearing_deg - up_deg) * Math.PI) / 180;
  return { x: middle + radius * Math.sin(turn), y: middle - radius * Math.cos(turn) };
}

/** The bearing of a point seen from the middle, whole degrees 0..359; null right in the middle. */
export function bearingOf({ x, y }: Point, up_deg: number): number | null {
  const [right, ahead] = [x - middle, middle - y];
  if (Math.hypot(right, ahead) < dialSize / 40) return null;
  return Math.round(turn_deg((Math.atan2(right, ahead) * 180) / Math.PI + up_deg)) % 360;
}

/** The outline of a fan from one bearing clockwise over `width_deg`, as an SVG path. */
export function fanPath(
  left_deg: number,
  width_deg: number,
  radius: number,
  up_deg: number,
): string {
  const from = pointAt(left_deg, radius, up_deg);
  const to = pointAt(left_deg + width_deg, radius, up_deg);
  const point = ({ x, y }: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
  if (width_deg <= 0) return `M${middle} ${middle}L${point(from)}`;
  const isLarge = width_deg > 180 ? 1 : 0;
  return `M${middle} ${middle}L${point(from)}A${radius} ${radius} 0 ${isLarge} 1 ${point(to)}Z`;
}

/** An arrow from the middle outwards, with its head, as an SVG path. */
export function arrowPath(bearing_deg: number, radius: number, up_deg: number): string {
  const tip = pointAt(bearing_deg, radius, up_deg);
  const [left, right] = [-7, 7].map((side) => pointAt(bearing_deg + side, radius - 18, up_deg));
  const text = ({ x, y }: Point): string => `${x.toFixed(1)} ${y.toFixed(1)}`;
  return `M${middle} ${middle}L${text(tip)}M${text(left ?? tip)}L${text(tip)}L${text(right ?? tip)}`;
}
