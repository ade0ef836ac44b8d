const DEGREE = Math.PI / 180;

/** Sine of an angle in degrees. */
export const sin_deg = (angle_deg: number): number => Math.sin(angle_deg * DEGREE);

/** Cosine of an angle in degrees. */
export const cos_deg = (angle_deg: number): number => Math.cos(angle_deg * DEGREE);

/** The angle in degrees, -90 to 90, whose sine this is; a rounding excess over 1 is cut off. */
export const asin_deg = (sine: number): number =>
  Math.asin(Math.min(1, Math.max(-1, sine))) / DEGREE;

/** The direction of a point (x, y) in degrees, -180 to 180, counted from x towards y. */
export const atan2_deg = (y: number, x: number): number => Math.atan2(y, x) / DEGREE;

/** The same direction from 0 up to, not including, 360 degrees. */
export const turn_deg = (angle_deg: number): number =>
  angle_deg - 360 * Math.floor(angle_deg / 360);

/** The same direction as the shortest turn, -180 to 180 degrees. */
export const shortTurn_deg = (angle_deg: number): number =>
  angle_deg - 360 * Math.round(angle_deg / 360);
