/** Steps of latitude and longitude to which positions are rounded for the public, degrees. */
export const precisions = [0.1, 0.01, 0.001] as const;
export type Precision = (typeof precisions)[number];

/**
 * The farthest that rounding to a step can move a position, at the equator, metres. Source: Chapman
 * 2020, Current best practices for generalizing sensitive species occurrence data (GBIF), as quoted in
 * the public code of camtrapdp.
 */
const rounding_m: Readonly<Record<Precision, number>> = { 0.1: 15_691, 0.01: 1570, 0.001: 157 };

/** What a position from a phone or a hand receiver is good to when nobody said (Chapman 2020). */
export const receiver_m = 30;

/** A position as it may be shown; `uncertainty_m` is the radius in which the true one lies. */
export interface RoundedPosition {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly uncertainty_m: number;
}

/**
 * A position rounded to a step. Always the same way, never jittered: many draws about one place would
 * give it away.
 */
export function generalise(
  latitude_deg: number,
  longitude_deg: number,
  precision: Precision,
): RoundedPosition {
  return {
    latitude_deg: rounded(latitude_deg, precision),
    longitude_deg: rounded(longitude_deg, precision),
    uncertainty_m: roundingOf(precision),
  };
}

/** Radius in which the true position of a rounded one lies, metres. */
export function roundingOf(precision: Precision): number {
  return rounding_m[precision] + receiver_m;
}

/** What was done to positions, as Darwin Core's `dataGeneralizations` says it. */
export function generalisation(precision: Precision): string {
  return `coordinates rounded to ${precision} degree`;
}

/** What was left out, as Darwin Core's `informationWithheld` says it. */
export const withheld =
  'exact positions, distances along the shore, names of zones and people, and remarks; ask the programme';

/** Half a step is rounded away from zero; the text has no more decimals than the step. */
function rounded(degrees: number, precision: Precision): number {
  const decimals = Math.round(-Math.log10(precision));
  const steps = Math.sign(degrees) * Math.round(Math.abs(degrees) / precision);
  return Number((steps * precision).toFixed(decimals)) + 0;
}
