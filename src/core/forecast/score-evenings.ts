import { oddsTimes } from '../numerics/odds.ts';
import { runningEvidence } from '../inference/running-evidence.ts';
import { type CueChains, halvesPerNight } from './cue-chains.ts';
import { groupsOf } from './cue-tally.ts';
import { addSighting, eventHalves } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { type LearningNest, oddsBy } from './learning-nests.ts';
import { hasten, priorOver } from './prior.ts';
import { logOfSilence } from './silence.ts';
import type { Tuning } from './tuning.ts';

/** A nest this unlikely to boil on an evening by any spread tells nothing of how to weigh its cues. */
const tooUnlikely = 1e-4;

/** What is tried for each part of the tuning, all combinations of it. */
export interface Tried {
  readonly surfacePower: readonly number[];
  readonly soundPower: readonly number[];
  readonly spreadFactor: readonly number[];
  readonly haste: readonly number[];
  readonly neverOdds: readonly number[];
}

/** All combinations, in the order of the scores. */
export function combinationsOf(tried: Tried): Tuning[] {
  return tried.surfacePower.flatMap((surfacePower) =>
    tried.soundPower.flatMap((soundPower) =>
      tried.spreadFactor.flatMap((spreadFactor) =>
        tried.haste.flatMap((haste) =>
          tried.neverOdds.map((neverOdds) => ({
            surfacePower,
            soundPower,
            spreadFactor,
            haste,
            neverOdds,
          })),
        ),
      ),
    ),
  );
}

/** A nest's past evenings, each with what was known on it: worked out once, scored as often as asked. */
export class PastEvenings {
  readonly #nest: LearningNest;
  readonly #groups: ReturnType<typeof groupsOf>;
  readonly #surface: Float64Array;
  readonly #sound: Float64Array;
  /** By candidate night, the chance as known by now that the boil was on it. */
  readonly #outcomes: Float64Array;
  readonly #last: number;

  constructor(nest: LearningNest, chains: CueChains, until: Moment) {
    const events = eventHalves(nest.evidence.candidates);
    this.#nest = nest;
    this.#groups = groupsOf(nest.evidence, chains);
    this.#surface = runningEvidence(chains.surface, this.#groups.surface, events);
    this.#sound = runningEvidence(chains.sound, this.#groups.sound, events);
    this.#outcomes = oddsBy(nest, chains).byNight;
    this.#last = lastScored(nest, until);
  }

  /**
   * Adds the log scores of the evenings to `scores`, one for each combination of what is tried; gives
   * how many evenings those were.
   */
  score(tried: Tried, scores: Float64Array): number {
    const { evidence, never, neverOdds, levels } = this.#nest;
    const { candidates, sightings } = evidence;
    const { first, count } = candidates;
    const { surface, sound } = this.#groups;
    const width = count + 1;
    const priors = tried.spreadFactor.map((factor) =>
      priorOver(this.#nest.priorAt(factor), count, levels),
    );
    const nevers = tried.neverOdds.map((factor) => oddsTimes(never, factor / neverOdds));
    const besides = new Float64Array(width);
    besides[count] = Math.log(evidence.mishaps.neverFactor);
    let sighted = 0;
    let seen = 0;
    let heard = 0;
    let scored = 0;
    const to = Math.min(first + count - 1, this.#last);
    for (let night: number = first; night <= to; night++) {
      const before = night - 1 - first;
      if (evidence.silence !== null && before >= 0) {
        besides[before] = besides[before]! + logOfSilence(evidence.silence, night - 1);
      }
      for (; sighted < sightings.length && sightings[sighted]!.night < night; sighted++) {
        addSighting(besides, sightings[sighted]!, candidates);
      }
      while (seen < surface.at.length && surface.at[seen]! < halvesPerNight * night) seen++;
      while (heard < sound.at.length && sound.at[heard]! < halvesPerNight * night) heard++;
      const tonight = night - first;
      if (priors.every((prior) => prior[tonight]! < tooUnlikely)) continue;
      const seenLog = this.#surface.subarray(seen * width, (seen + 1) * width);
      const heardLog = this.#sound.subarray(heard * width, (heard + 1) * width);
      const hastened = priors.flatMap((prior) =>
        tried.haste.map((haste) => hasten(prior, tonight, haste)),
      );
      const seenBy = tried.surfacePower.map((power) => raised(seenLog, power, null));
      const heardBy = tried.soundPower.map((power) => raised(heardLog, power, besides));
      scoreEvening(tonight, this.#outcomes[tonight]!, hastened, nevers, seenBy, heardBy, scores);
      scored++;
    }
    return scored;
  }
}

function scoreEvening(
  tonight: number,
  boiled: number,
  priors: readonly Float64Array[],
  nevers: readonly number[],
  seen: readonly Float64Array[],
  heard: readonly Float64Array[],
  scores: Float64Array,
): void {
  let index = 0;
  for (const ofSurface of seen) {
    for (const ofSound of heard) {
      for (const prior of priors) {
        const count = prior.length;
        let ever = 0;
        for (let c = 0; c < count; c++) ever += prior[c]! * ofSurface[c]! * ofSound[c]!;
        const boil = prior[tonight]! * ofSurface[tonight]! * ofSound[tonight]!;
        const stays = ofSurface[count]! * ofSound[count]!;
        for (const never of nevers) {
          const total = never * stays + (1 - never) * ever;
          const p = total > 0 ? Math.min(1 - 1e-9, ((1 - never) * boil) / total) : 0.5;
          const score = boiled * Math.log(Math.max(1e-9, p)) + (1 - boiled) * Math.log1p(-p);
          scores[index] = scores[index]! + score;
          index++;
        }
      }
    }
  }
}

/** The likelihood to a power, times another; scaled so that the largest is 1. */
function raised(log: Float64Array, power: number, besides: Float64Array | null): Float64Array {
  const sum = new Float64Array(log.length);
  let largest = -Infinity;
  for (let c = 0; c < log.length; c++) {
    const value = power * log[c]! + (besides === null ? 0 : besides[c]!);
    sum[c] = value;
    if (value > largest) largest = value;
  }
  if (largest === -Infinity) return sum.fill(1);
  for (let c = 0; c < log.length; c++) sum[c] = Math.exp(sum[c]! - largest);
  return sum;
}

/** The last evening on which the nest was still in the ranking and whose outcome is past. */
function lastScored({ evidence }: LearningNest, until: Moment): number {
  const { boil, mishaps, inventoried } = evidence;
  return Math.min(
    until.night - 1,
    boil?.night ?? Infinity,
    (mishaps.goneFrom ?? Infinity) - 1,
    (inventoried ?? Infinity) - 1,
  );
}
