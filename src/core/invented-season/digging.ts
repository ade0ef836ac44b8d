import type { Instrument } from '../domain/visit.ts';
import { type Random, randomStream } from '../numerics/random.ts';
import type { Fate } from './fate.ts';
import type { Clutch } from './laying.ts';

/** What reaches the ear over a listening of some minutes. */
export interface Listening {
  /** Scratches a minute, over the whole time. */
  readonly scratch_per_min: number;
  /** Share of the time in which they moved. */
  readonly active_share: number;
}

/** How well one nest is heard from above: the sand, the depth, how the clutch lies. */
export interface Digging {
  listen(
    random: Random,
    moment: number,
    minutes: number,
    instrument: Instrument,
    wind_ms: number,
  ): Listening;
}

/** What each instrument passes on of the scratches a head in the sand would (invented). */
const PASSES: Record<Instrument, number> = { stethoscope: 0.2, microphone: 0.9, probe: 1 };
/** Wind, metres a second, at which half of the scratches drown in it (invented). */
const DROWNS_MS: Record<Instrument, number> = { stethoscope: 6, microphone: 9, probe: 13 };

/**
 * The digging in a nest: bouts of movement with rests, mostly under ten minutes (Dor et al. 2024),
 * that grow longer and denser as they climb, and in the last day are livelier by night. Before the
 * eggs break nearly nothing is heard. Rates are invented: no sound level is published.
 */
export function diggingIn(seed: number, clutch: Clutch, fate: Fate): Digging {
  const own = randomStream(seed, 'digging', clutch.index);
  const heard =
    Math.exp(own.normal(-0.7, 1)) * (47 / clutch.depth_cm) * (own.chance(0.12) ? 0.06 : 1);
  const restless = own.between(0.7, 1.3);
  return {
    listen(random, moment, minutes, instrument, wind_ms) {
      const { busy, scratches } = liveliness(moment, fate, restless);
      const active_share = shareOfBouts(random, busy, minutes);
      const passes = PASSES[instrument] / (1 + (wind_ms / DROWNS_MS[instrument]) ** 4);
      const expected = active_share * minutes * scratches * heard * passes;
      return { active_share, scratch_per_min: random.poisson(expected) / minutes };
    },
  };
}

/** Long-run share of time spent digging, and scratches a minute while they dig. */
function liveliness(
  moment: number,
  fate: Fate,
  restless: number,
): { busy: number; scratches: number } {
  if (fate.outcome === 'lost') return { busy: 0.002, scratches: 1 };
  const { pip, ready, boil, after } = fate.emergence;
  if (moment < pip) return { busy: 0.004, scratches: 1.5 };
  if (moment > boil.moment) {
    const below = after.filter((group) => group.moment > moment).length;
    return { busy: below > 0 ? 0.06 : 0.004, scratches: 2 };
  }
  const climbed = Math.min(1, (moment - pip) / (ready - pip));
  const lastDay = boil.moment - moment < 1;
  const byNight = moment - Math.floor(moment) > 0.3;
  const busy = (0.035 + 0.42 * climbed ** 2) * (lastDay && byNight ? 1.5 : 1) * restless;
  return { busy: Math.min(0.9, busy), scratches: 3 + 21 * climbed ** 3 };
}

/** Share of a listening that fell into bouts of digging of 1.5 minutes on the mean. */
function shareOfBouts(random: Random, busy: number, minutes: number): number {
  const bout_min = 1.5;
  const rest_min = (bout_min * (1 - busy)) / busy;
  let digs = random.chance(busy);
  let active = 0;
  for (let at = 0; at < minutes; digs = !digs) {
    const lasts = Math.min(minutes - at, random.gamma(digs ? bout_min : rest_min, 1));
    if (digs) active += lasts;
    at += lasts;
  }
  return active / minutes;
}
