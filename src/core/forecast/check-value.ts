import type { Night } from '../domain/night.ts';
import { Sound, Surface } from '../domain/visit.ts';
import { type CueChains, halvesPerNight } from './cue-chains.ts';
import { type Evidence, expectedStates } from './evidence.ts';
import type { NestOdds } from './nest-odds.ts';

/** The best chances tonight among the other nests, as the sitters would be placed by them. */
export interface Placement {
  /** Chance of the nest that would lose its pair, and of the one that would gain it. */
  readonly lastPlaced: number;
  readonly firstUnplaced: number;
}

/**
 * Chance of each of the four readings of the surface and of the sound under each candidate night
 * and never (last row): what a trained observer may note at a nest on one evening.
 */
export interface Readings {
  readonly seen: Float64Array;
  readonly heard: Float64Array;
}

/** The readings to expect on the evening of a night, given what was noted so far. */
export function readingsOn(night: Night, evidence: Evidence, chains: CueChains): Readings {
  const half = night * halvesPerNight;
  return {
    seen: readingChances(evidence, chains, 'surface', half),
    heard: readingChances(evidence, chains, 'sound', half),
  };
}

/**
 * Boils met tonight that ten minutes of looking and listening at a nest are expected to add, before
 * the sitters are placed: over the sixteen readings a trained observer may make, the chance after
 * the reading against the chance of the nest it would displace (or be displaced by), less the
 * placement without looking. Never negative. `tonight` = index of tonight among the candidates.
 */
export function checkValue(
  { seen, heard }: Readings,
  odds: NestOdds,
  tonight: number,
  { lastPlaced, firstUnplaced }: Placement,
): number {
  const { count } = odds.candidates;
  const p = odds.byNight[tonight];
  if (p === undefined || p <= 0) return 0;
  const placed = p >= lastPlaced;
  const rival = placed ? firstUnplaced : lastPlaced;
  let expected = 0;
  for (let surface = 0; surface < Surface.options.length; surface++) {
    for (let sound = 0; sound < Sound.options.length; sound++) {
      let reading = 0;
      for (let c = 0; c <= count; c++) {
        const prior = c === count ? odds.never : odds.byNight[c]!;
        reading += prior * seen[c * 4 + surface]! * heard[c * 4 + sound]!;
      }
      const boil = p * seen[tonight * 4 + surface]! * heard[tonight * 4 + sound]!;
      expected += Math.max(boil, rival * reading);
    }
  }
  return Math.max(0, expected - Math.max(p, rival));
}

/**
 * Chance of each reading under each candidate night and never (last row), with the weight the
 * channel has: raised to its power and scaled to sum 1.
 */
function readingChances(
  evidence: Evidence,
  chains: CueChains,
  channel: 'surface' | 'sound',
  half: number,
): Float64Array {
  const { count } = evidence.candidates;
  const { atHorizon } = expectedStates(evidence, chains, channel, half);
  const reach = chains[channel].reach;
  const rows =
    channel === 'surface'
      ? Surface.options.map((reading) => chains.surfaceLook(reading, 'trained'))
      : Sound.options.map((reading) => chains.soundLook(reading, 'trained', null, false));
  const chances = new Float64Array((count + 1) * 4);
  for (let c = 0; c <= count; c++) {
    const left = c === count ? reach : (evidence.candidates.first + c) * halvesPerNight - half;
    const row = (left < 0 ? reach + 1 : Math.min(left, reach)) * 4;
    let total = 0;
    rows.forEach((likelihood, reading) => {
      let chance = 0;
      for (let s = 0; s < 4; s++) chance += atHorizon[c * 4 + s]! * likelihood[row + s]!;
      const weight = chance ** chains.power[channel];
      chances[c * 4 + reading] = weight;
      total += weight;
    });
    for (let reading = 0; reading < 4; reading++) {
      chances[c * 4 + reading] = chances[c * 4 + reading]! / total;
    }
  }
  return chances;
}
