import type { Nest } from '../domain/nest.ts';
import { type Night, asNight } from '../domain/night.ts';
import type { BeachTemperature } from '../thermal/beach-temperature.ts';
import { incubation, longest, shortest, spreadAt55 } from './incubation.ts';

/** How long a nest is expected to take before its cues and other nests are asked. */
export interface Central {
  readonly nights: number;
  /** Spread of nests about it, in nights at an incubation of 55. */
  readonly spread_nights: number;
  /** Against the median of the species, on the log scale: what the temperature alone says. */
  readonly logShift: number;
  /**
   * How much longer (log scale) the nest would take for each unit by which temperature counts more
   * than the line says: its mean deviation from the beach, degrees C.
   */
  readonly warmer_c: number;
}

/**
 * Spread when a logger lies elsewhere on the beach (derived). No table says that a logger lies beside
 * one clutch: one of the same zone is taken as elsewhere, for sand differs by 0.56 C within a beach.
 */
const loggerElsewhere_nights = 3;

/**
 * The central duration of a nest by the temperature of its sand where any was measured, else by its
 * species. A nest laid on one of several nights is taken at the middle one. Null when the lay night
 * is not known.
 */
export function centralOf(nest: Nest, beach: BeachTemperature): Central | null {
  if (nest.layNight === null) return null;
  const { median } = incubation(nest.species);
  const middle: Night = asNight(
    Math.floor((nest.layNight + (nest.layNightLatest ?? nest.layNight)) / 2),
  );
  const told = beach.central(nest.species, middle, nest.zone);
  if (told === null) {
    const spread_nights = spreadAt55(nest.species);
    return { nights: median, spread_nights, logShift: 0, warmer_c: 0 };
  }
  return {
    nights: Math.min(longest, Math.max(shortest, told.nights)),
    spread_nights: Math.max(told.spread_nights55, loggerElsewhere_nights),
    logShift: Math.log(told.nights / median),
    warmer_c: told.meanDeviation_c,
  };
}
