import { type Random, randomStream } from '../numerics/random.ts';
import type { Coast, InventedZone } from './coast.ts';
import type { InventedSpecies } from './development.ts';

/** What is true of one clutch, known to the beach's people or not. */
export interface Clutch {
  readonly nest: string;
  readonly index: number;
  readonly species: InventedSpecies;
  readonly zone: InventedZone;
  /** The night it was laid. */
  readonly laid: number;
  readonly eggs: number;
  readonly shore_m: number;
  /** Above an ordinary high tide, metres. */
  readonly height_m: number;
  /** To the middle of the clutch, centimetres. */
  readonly depth_cm: number;
  /** Of the sand here beside the zone's, degrees C: shade, slope, wet. */
  readonly warmer_c: number;
  readonly vigour: number;
  readonly heat_c: number;
  readonly screened: boolean;
  readonly relocated: boolean;
  /** 0 dark .. 3 lamps in direct view. */
  readonly light: number;
  readonly lamp: string | null;
}

interface Habit {
  readonly share: number;
  /** Lay nights, days after 1 May. */
  readonly mid: number;
  readonly sd: number;
  readonly eggs: number;
  readonly depth_cm: number;
}

/**
 * Clutch means 112, 113, 82: Miller 1997 (facts, from memory). Depths of 30-80 cm are common
 * practice, no source. The lay season is invented.
 */
const HABITS: Record<InventedSpecies, Habit> = {
  'Caretta caretta': { share: 0.86, mid: 52, sd: 21, eggs: 112, depth_cm: 47 },
  'Chelonia mydas': { share: 0.11, mid: 68, sd: 20, eggs: 113, depth_cm: 62 },
  'Dermochelys coriacea': { share: 0.03, mid: 18, sd: 16, eggs: 82, depth_cm: 70 },
};

/** Lay nights run from 1 May to 15 August. */
export const LAY_NIGHTS = 107;

/**
 * The clutches of a season in the order of their laying; ids as a patrol would give them, counted
 * within a zone: `W-014`. `may` = the day of 1 May.
 */
export function layClutches(seed: number, coast: Coast, nests: number, may: number): Clutch[] {
  const draws = Array.from({ length: nests }, (_, draw) => {
    const random = randomStream(seed, 'laying', draw);
    return { random, ...speciesAndNight(random) };
  });
  draws.sort((one, other) => one.night - other.night);
  const numbers = new Map<string, number>();
  const digits = Math.max(3, String(nests).length);
  return draws.map(({ random, species, night }, index) => {
    const zone = random.weighted(coast.zones.map((each) => [each, each.share] as const));
    const number = (numbers.get(zone.letter) ?? 0) + 1;
    numbers.set(zone.letter, number);
    const nest = `${zone.letter}-${String(number).padStart(digits, '0')}`;
    return {
      nest,
      index,
      species,
      zone,
      laid: may + night,
      ...lieOfTheNest(random, species, zone),
    };
  });
}

function speciesAndNight(random: Random): { species: InventedSpecies; night: number } {
  const species = random.weighted<InventedSpecies>([
    ['Caretta caretta', HABITS['Caretta caretta'].share],
    ['Chelonia mydas', HABITS['Chelonia mydas'].share],
    ['Dermochelys coriacea', HABITS['Dermochelys coriacea'].share],
  ]);
  const { mid, sd } = HABITS[species];
  for (;;) {
    const night = Math.round(random.normal(mid, sd));
    if (night >= 0 && night < LAY_NIGHTS) return { species, night };
  }
}

function lieOfTheNest(random: Random, species: InventedSpecies, zone: InventedZone) {
  const { eggs, depth_cm } = HABITS[species];
  const shore_m = Math.round(random.between(0, zone.length_m));
  const low_m = random.gamma(zone.height_m, 4);
  // A permit holder moves nests from where every spring tide would reach them.
  const relocated = low_m < 0.35 && random.chance(0.5);
  return {
    eggs: Math.round(Math.max(35, random.normal(eggs, eggs * 0.19))),
    shore_m,
    height_m: relocated ? zone.height_m + random.gamma(0.5, 3) : low_m,
    depth_cm: Math.max(28, random.normal(depth_cm, 6)),
    warmer_c: random.normal(0, 0.75) - (random.chance(0.12) ? random.gamma(0.6, 3) : 0),
    vigour: Math.exp(random.normal(0, 0.03)),
    heat_c: random.gamma(2.5, 18),
    screened: random.chance(0.62),
    relocated,
    ...lampsAt(random, zone, shore_m),
  };
}

/** Light falls off with the distance along the shore; here and there a dune hides the lamp. */
function lampsAt(random: Random, zone: InventedZone, shore_m: number) {
  let light = 0;
  let lamp: string | null = null;
  for (const { at_m, name } of zone.lamps_m) {
    const away_m = Math.abs(shore_m - at_m);
    const seen = away_m < 80 ? 3 : away_m < 220 ? 2 : away_m < 500 ? 1 : 0;
    if (seen > light) [light, lamp] = [seen, name];
  }
  if (light > 0 && random.chance(0.2)) light -= 1;
  return { light, lamp };
}
