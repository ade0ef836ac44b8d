/** The species that lay on the invented coast. */
export type InventedSpecies = 'Caretta caretta' | 'Chelonia mydas' | 'Dermochelys coriacea';

/**
 * A thermal reaction norm: the share of its development an embryo completes in a day, by
 * temperature. Nil at `least_c` and `most_c`, fastest at `best_c`, where it takes `best_days`.
 */
interface ReactionNorm {
  readonly least_c: number;
  readonly best_c: number;
  readonly most_c: number;
  readonly best_days: number;
  /** How much faster embryos go in the field than at constant temperature in a laboratory. */
  readonly field: number;
}

/**
 * Fitted by least squares to published constant-temperature incubations, lay to hatch, with
 * `least_c` fixed at 12: loggerhead 49 pairs (residual SD 1.4 d; Mrosovsky 1988 Can J Zool 66:661;
 * Mrosovsky et al. 2002 Can J Zool 80:2118; Marcovaldi et al. 1997 Can J Zool 75:755; Limpus et al.
 * 1985; Maxwell 1987), green 12 (2.7 d; Booth et al. 2004; Stubbs & Mitchell 2018; Tokunaga 1991),
 * leatherback 5 (2.5 d, weak; Rimblot et al. 1985), all read from the ROSIE data set (Krueger &
 * Janzen 2022). `field` brings lay to emergence to what field nests at the same mean temperature
 * take: about the laboratory's lay to hatch + 1 d (loggerhead), + 6 (green), + 2 (leatherback).
 */
const NORMS: Record<InventedSpecies, ReactionNorm> = {
  'Caretta caretta': { least_c: 12, best_c: 34.5, most_c: 43, best_days: 45.2, field: 1.06 },
  'Chelonia mydas': { least_c: 12, best_c: 34, most_c: 41.5, best_days: 43.4, field: 0.98 },
  'Dermochelys coriacea': { least_c: 12, best_c: 33.25, most_c: 42.25, best_days: 56, field: 1.03 },
};

/**
 * Share of the way from laying to hatching that one day at a constant temperature (degrees C) is
 * worth in a laboratory. A beta-shaped curve (Yan & Hunt 1999 Ann Bot 84:607, from memory).
 */
export function developmentPerDay(species: InventedSpecies, sand_c: number): number {
  const { least_c, best_c, most_c, best_days } = NORMS[species];
  if (sand_c <= least_c || sand_c >= most_c) return 0;
  const rise = (sand_c - least_c) / (best_c - least_c);
  const fall = (most_c - sand_c) / (most_c - best_c);
  return (fall * rise ** ((best_c - least_c) / (most_c - best_c))) / best_days;
}

/**
 * Degrees C by which a clutch is warmer than the sand beside it, by its share of development.
 * Follows the mass of the embryos, which grows as a logistic curve; `peak_c` is reached at the end.
 * Near +0.4 C through the middle third and +2.5 C at the end (facts: Chelonia mydas, Samandag;
 * review of 16 studies, Front Ecol Evol 2020, doi 10.3389/fevo.2020.556379).
 */
export function metabolicHeat_c(development: number, peak_c: number): number {
  return (peak_c * 1.07) / (1 + Math.exp((0.74 - development) / 0.098));
}

/** What one clutch went through from laying to hatching. */
export interface Incubation {
  /** Moment of hatching, days. */
  readonly hatch: number;
  /** Mean temperature inside the clutch. */
  readonly mean_c: number;
}

/**
 * Follows a clutch day by day until it hatches. `sand_c(day)` is the sand's temperature where the
 * nest lies; `vigour` multiplies its rate. Null when it has not hatched by day `last`.
 */
export function incubate(
  species: InventedSpecies,
  laid: number,
  vigour: number,
  peak_c: number,
  last: number,
  sand_c: (day: number) => number,
): Incubation | null {
  const { field } = NORMS[species];
  let development = 0;
  let sum_c = 0;
  // Laid around midnight: half a day after the noon that starts its night.
  for (let day = laid; day <= last; day++) {
    const clutch_c = sand_c(day) + metabolicHeat_c(development, peak_c);
    const step = developmentPerDay(species, clutch_c) * field * vigour;
    sum_c += clutch_c;
    if (development + step >= 1) {
      return {
        hatch: day + 0.5 + (1 - development) / step,
        mean_c: sum_c / (day - laid + 1),
      };
    }
    development += step;
  }
  return null;
}
