import type { Species } from '../domain/species.ts';
import { normalCdf } from '../numerics/normal.ts';

/** Nights from laying to the boil that the prior allows. */
export const shortest = 35;
export const longest = 105;
export const durations = longest - shortest + 1;

/** Spread of the species in nights at an incubation of 55, from its spread at its own median. */
export function spreadAt55(species: Species | null): number {
  const { median, spread } = incubation(species);
  return (spread / median) * 55;
}

/**
 * Median nights from laying to emergence, and the spread between nests of one beach and season, by
 * species; derived from published field nests (Krueger & Janzen 2022 data set, pooled SD 4.5 d over
 * 12 beaches, 266 df) and rounded. `null` = species not known.
 */
export function incubation(species: Species | null): { median: number; spread: number } {
  switch (species) {
    case 'Caretta caretta':
      return { median: 55, spread: 4.5 };
    case 'Chelonia mydas':
      return { median: 53, spread: 4.5 };
    case 'Lepidochelys kempii':
      return { median: 50, spread: 4 };
    case 'Lepidochelys olivacea':
      return { median: 53, spread: 4 };
    case 'Eretmochelys imbricata':
      return { median: 58, spread: 4.5 };
    case 'Dermochelys coriacea':
      return { median: 63, spread: 4 };
    case 'Natator depressus':
      return { median: 50, spread: 4 };
    case null:
      return { median: 56, spread: 6.5 };
  }
}

/** Prior probability that a nest never comes up (loggerhead derived, the others guesses). */
export function neverShare(species: Species | null): number {
  switch (species) {
    case 'Caretta caretta':
      return 0.08;
    case 'Dermochelys coriacea':
      return 0.2;
    default:
      return 0.1;
  }
}

/** The heavy tail: its weight, its shift on the log scale, and how much wider it is (guess). */
const tail = { weight: 0.1, shift: 0.035, widening: 2.2 };

/** Cumulative mixture 0.90 N(0, s) + 0.10 N(shift, 2.2 s), on whatever scale `x` is given. */
export function residualCdf(x: number, s: number, shift: number): number {
  return (
    (1 - tail.weight) * normalCdf(x / s) +
    tail.weight * normalCdf((x - shift) / (tail.widening * s))
  );
}

/**
 * Probability of each duration from `shortest` to `longest` nights: log D = centre + e, by
 * differences of the distribution half a night to each side; sums to 1, even where the centre is so
 * far off that every difference is zero. `s` = spread on the log
 * scale. Writes into `into` from `offset` on.
 */
export function durationProbabilities(
  centre: number,
  s: number,
  into: Float64Array,
  offset: number,
): void {
  let below = residualCdf(Math.log(shortest - 0.5) - centre, s, tail.shift);
  let total = 0;
  for (let index = 0; index < durations; index++) {
    const up = residualCdf(Math.log(shortest + index + 0.5) - centre, s, tail.shift);
    into[offset + index] = up - below;
    total += up - below;
    below = up;
  }
  for (let index = 0; index < durations; index++) {
    into[offset + index] = total > 0 ? into[offset + index]! / total : 1 / durations;
  }
}
