import type { Species } from '../domain/species.ts';

/**
 * How fast the embryos of a species develop: a day at T degrees C inside the clutch is worth
 * (T - `zero_c`) / `degreeDays` of the way from laying to hatching.
 */
export interface DevelopmentLine {
  /** Temperature at which the line reaches nil, degrees C. */
  readonly zero_c: number;
  /** Degree days from laying to hatching. */
  readonly degreeDays: number;
  /**
   * Nights to add to the laboratory's lay-to-hatch for lay-to-boil in the field. It already holds
   * the days from hatching to the surface: laboratory lines overestimate incubation in the field
   * (Booth et al. 2022, doi 10.1002/jez.2585), and the two nearly cancel.
   */
  readonly toBoil_nights: number;
}

/**
 * The lines were fitted to incubations at 26-32 C; beyond their ends the rate stays what it is
 * there.
 */
const LEAST_OVER_ZERO_C = 5;
const MOST_C = 32.5;

/**
 * The development line of a species.
 *
 * Lines derived by least squares from the published incubations at constant temperature in the
 * ROSIE data set (Krueger & Janzen 2022, CC BY 4.0): loggerhead 81 places and temperatures
 * (residual SD 2.3 d), green 18 (3.2 d), hawksbill 23 (1.0 d), olive ridley 16 (4.9 d), leatherback
 * 6 (3.1 d, weak), flatback 8 (1.7 d). Kemp's ridley has no such incubation on file: the line is a
 * guess that fits field nests (Shaver 2004). `toBoil_nights` derived from field nests of known
 * inner temperature: loggerhead +0.9 d (63 nests), green +5 to +8, hawksbill about +1, olive ridley
 * -0.5; leatherback, flatback and Kemp's ridley are guesses. A nest of unknown species is taken
 * for something between a loggerhead and its later relations (guess).
 */
export function developmentLine(species: Species | null): DevelopmentLine {
  switch (species) {
    case 'Caretta caretta':
      return { zero_c: 16.8, degreeDays: 708, toBoil_nights: 1 };
    case 'Chelonia mydas':
      return { zero_c: 17.8, degreeDays: 633, toBoil_nights: 6 };
    case 'Lepidochelys kempii':
      return { zero_c: 16.8, degreeDays: 640, toBoil_nights: 0 };
    case 'Lepidochelys olivacea':
      return { zero_c: 16.8, degreeDays: 724, toBoil_nights: 0 };
    case 'Eretmochelys imbricata':
      return { zero_c: 16.75, degreeDays: 774, toBoil_nights: 1 };
    case 'Dermochelys coriacea':
      return { zero_c: 10.2, degreeDays: 1211, toBoil_nights: 2 };
    case 'Natator depressus':
      return { zero_c: 15.1, degreeDays: 708, toBoil_nights: 2 };
    case null:
      return { zero_c: 16.8, degreeDays: 708, toBoil_nights: 2 };
  }
}

/** Share of development that a day at this temperature inside the clutch is worth. */
export function developmentPerDay(line: DevelopmentLine, clutch_c: number): number {
  const over_c = Math.min(clutch_c, MOST_C) - line.zero_c;
  return Math.max(over_c, LEAST_OVER_ZERO_C) / line.degreeDays;
}

/**
 * Days from laying until development is done, the last one counted in part.
 *
 * `sand_c(day)` = mean temperature beside the clutch on day 1, 2, .. after laying;
 * `ownHeat_c(share)` = how much warmer the clutch is than that sand at a share of its development.
 * The clutch's own heat is taken at the middle of each day's step.
 */
export function developmentDays(
  line: DevelopmentLine,
  sand_c: (day: number) => number,
  ownHeat_c: (share: number) => number,
): number {
  let done = 0;
  for (let day = 1; ; day++) {
    const beside_c = sand_c(day);
    const atDawn = developmentPerDay(line, beside_c + ownHeat_c(done));
    const step = developmentPerDay(line, beside_c + ownHeat_c(done + atDawn / 2));
    if (done + step >= 1) return day - 1 + (1 - done) / step;
    done += step;
  }
}
