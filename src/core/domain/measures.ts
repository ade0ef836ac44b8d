import * as z from 'zod/mini';

/**
 * In which units lengths and temperatures are shown and typed: metres, kilometres and °C, or feet,
 * miles and °F. What is on record is metric whichever is chosen.
 */
export const Measures = z.enum(['metric', 'feet']);
export type Measures = z.infer<typeof Measures>;

/** Metres of a foot and of a mile, exact (international yard and pound agreement of 1959). */
export const foot_m = 0.3048;
export const mile_m = 1609.344;

/** °F of a temperature in °C, exact: 9/5 of it and 32. */
export function toFahrenheit(temperature_c: number): number {
  return differenceToFahrenheit(temperature_c) + 32;
}

/** How many °F a difference of so many °C is, and degree days likewise. */
export function differenceToFahrenheit(difference_c: number): number {
  return (difference_c * 9) / 5;
}

/** The number that stands in a field for a length on record: as it is, or feet to a hundredth. */
export function lengthToType(length_m: number, measures: Measures): number {
  switch (measures) {
    case 'metric':
      return length_m;
    case 'feet':
      return Math.round((length_m / foot_m) * 100) / 100;
  }
}

/**
 * Metres of a length that was typed as a number in the measures chosen; feet to a tenth of a
 * millimetre. `held_m` is what is on record: the number that stands in the field for it gives just
 * that, so that a field nobody touched changes nothing.
 */
export function lengthTyped_m(typed: number, measures: Measures, held_m: number | null): number {
  if (held_m !== null && typed === lengthToType(held_m, measures)) return held_m;
  switch (measures) {
    case 'metric':
      return typed;
    case 'feet':
      return Math.round(typed * foot_m * 1e4) / 1e4;
  }
}
