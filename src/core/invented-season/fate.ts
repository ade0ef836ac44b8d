import { type Random, randomStream } from '../numerics/random.ts';
import { type Incubation, type InventedSpecies, incubate } from './development.ts';
import { type Daylight, type Emergence, inventEmergence } from './emergence.ts';
import type { Clutch } from './laying.ts';
import type { Sand } from './sand.ts';
import { drownedShare, type Sea } from './sea.ts';
import type { Weather } from './weather.ts';

/** Something that befell a nest, visible at the dawn that ends its night. */
export interface Mishap {
  readonly night: number;
  readonly kind: 'washover' | 'washout' | 'predation';
}

/** What came of the eggs, as a count of the nest's contents would find it. */
export interface EggCount {
  readonly shells: number;
  readonly unhatched: number;
  readonly pippedDead: number;
  readonly depredated: number;
}

/** What became of a nest: it came up, or it was lost on some night (the last one it could have). */
export type Fate =
  | {
      readonly outcome: 'boil';
      readonly mishaps: readonly Mishap[];
      readonly eggs: EggCount;
      readonly emergence: Emergence;
    }
  | { readonly outcome: 'lost'; readonly mishaps: readonly Mishap[]; readonly eggs: EggCount };

/** The physical world that all nests share. */
export interface Beach {
  readonly weather: Weather;
  readonly sea: Sea;
  readonly daylight: Daylight;
  sand(zone: string): Sand;
}

/** Share of clutches that never develop, and of eggs that hatch in a good nest (invented). */
const BROOD: Record<InventedSpecies, { barren: number; hatch: number }> = {
  'Caretta caretta': { barren: 0.03, hatch: 0.84 },
  'Chelonia mydas': { barren: 0.035, hatch: 0.84 },
  'Dermochelys coriacea': { barren: 0.1, hatch: 0.62 },
};

/** Fewer hatchlings than this do not dig themselves out (invented; they dig together). */
const FEWEST_DIGGERS = 5;

/** Follows a clutch from laying to its boil or its loss. */
export function fateOf(seed: number, clutch: Clutch, beach: Beach): Fate {
  const random = randomStream(seed, 'fate', clutch.index);
  const brood = BROOD[clutch.species];
  const barren = random.chance(brood.barren);
  const success = random.beta(brood.hatch, 11);
  const incubation = incubate(
    clutch.species,
    clutch.laid,
    clutch.vigour,
    clutch.heat_c,
    beach.weather.last - 30,
    sandAround(clutch, beach),
  );
  const end = incubation === null ? clutch.laid + 80 : Math.ceil(incubation.hatch);
  const trials = trialsOf(random, clutch, beach, end);
  const alive =
    trials.left * (barren || incubation === null ? 0 : success * heatLeaves(incubation));
  const taken = Math.round(clutch.eggs * trials.taken);
  const shells = random.binomial(clutch.eggs - taken, Math.min(1, alive));
  const pippedDead = Math.min(clutch.eggs - taken - shells, random.poisson(shells > 0 ? 1.2 : 0));
  const eggs: EggCount = {
    shells,
    pippedDead,
    depredated: taken,
    unhatched: clutch.eggs - taken - shells - pippedDead,
  };
  const { mishaps } = trials;
  const diggers = random.binomial(shells, 0.95);
  if (incubation === null || trials.washedOut || diggers < FEWEST_DIGGERS)
    return { outcome: 'lost', mishaps, eggs };
  const { weather, daylight } = beach;
  const emergence = inventEmergence(random, clutch, incubation.hatch, diggers, weather, daylight);
  const swept = sweptAway(clutch, beach, end, Math.floor(emergence.boil.moment));
  if (swept !== null) return { outcome: 'lost', mishaps: [...mishaps, swept], eggs };
  return { outcome: 'boil', mishaps, eggs, emergence };
}

/** The sand at the clutch: the zone's, its own place, and a slower follower the deeper it lies. */
function sandAround(clutch: Clutch, beach: Beach): (day: number) => number {
  const sand = beach.sand(clutch.zone.zone);
  const memory_days = 1 + Math.max(0, clutch.depth_cm - 30) / 15;
  let here_c = sand.on(clutch.laid);
  return (day) => {
    here_c += (sand.on(day) - here_c) / memory_days;
    return here_c + clutch.warmer_c;
  };
}

/**
 * Share of the success of a cool nest that a warm one keeps: 1 / (1 + exp(1.7 (T - 32.7))), the
 * mean-temperature curve of facts A2 (probably Laloe et al. 2017, doi 10.1111/gcb.13765).
 */
function heatLeaves({ mean_c }: Incubation): number {
  return 1 / (1 + Math.exp(1.7 * (mean_c - 32.7)));
}

interface Trials {
  readonly mishaps: Mishap[];
  /** Share of the eggs left by the sea, of those not taken. */
  readonly left: number;
  /** Share of the eggs taken by animals. */
  readonly taken: number;
  readonly washedOut: boolean;
}

/** Sea and animals, night by night until hatching. Rates of animals are invented. */
function trialsOf(random: Random, clutch: Clutch, beach: Beach, end: number): Trials {
  const mishaps: Mishap[] = [];
  let left = 1;
  let taken = 0;
  for (let night = clutch.laid + 1; night < end; night++) {
    const over_m = beach.sea.reach_m(night) - clutch.height_m;
    if (cutAway(clutch, beach, night)) {
      mishaps.push({ night, kind: 'washout' });
      return { mishaps, left: 0, taken, washedOut: true };
    }
    if (over_m > 0) {
      mishaps.push({ night, kind: 'washover' });
      left *= 1 - drownedShare(over_m);
    }
    const fresh = night < clutch.laid + 6 || night > end - 6;
    if (random.chance((clutch.screened ? 0.0006 : 0.0036) * (fresh ? 3 : 0.7))) {
      mishaps.push({ night, kind: 'predation' });
      taken += (1 - taken) * (random.chance(0.25) ? 1 : random.beta(0.3, 4));
    }
  }
  return { mishaps, left, taken, washedOut: false };
}

/** A storm carries a nest off when the sea comes well above it, or stands deep over a low one. */
function cutAway(clutch: Clutch, beach: Beach, night: number): boolean {
  const over_m = beach.sea.reach_m(night) - clutch.height_m;
  return over_m > (beach.sea.erodes(night) ? 0.35 : 1.1);
}

/** Hatched below, not yet up, and carried off on a night before the boil or on its own night. */
function sweptAway(clutch: Clutch, beach: Beach, from: number, boil: number): Mishap | null {
  for (let night = from; night <= boil; night++)
    if (cutAway(clutch, beach, night)) return { night, kind: 'washout' };
  return null;
}
