import { runningEvidence } from '../inference/running-evidence.ts';
import type { CueChains } from './cue-chains.ts';
import { groupsOf } from './cue-tally.ts';
import { eventHalves } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { type LearningNest, oddsBy } from './learning-nests.ts';
import type { NestOdds } from './nest-odds.ts';
import { hasten, priorOver } from './prior.ts';
import { logOfSilence } from './silence.ts';
import { type Tuning, neverAt } from './tuning.ts';

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

/**
 * Adds the log scores of a nest's past evenings to `scores`, one for each combination of what is
 * tried; gives how many evenings those were.
 */
export function scoreNest(
  nest: LearningNest,
  chains: CueChains,
  until: Moment,
  tried: Tried,
  scores: Float64Array,
): number {
  const { evidence, never } = nest;
  const { candidates, sightings } = evidence;
  const { first, count } = candidates;
  if (nest.priorAt(1) === null) return 0; // of unknown age: it never had a rank to speak of
  const width = count + 1;
  const priors = tried.spreadFactor.map((factor) =>
    priorOver(nest.priorAt(factor), count, nest.levels),
  );
  const nevers = tried.neverOdds.map((factor) => neverAt(never, factor / nest.neverOdds));
  const events = eventHalves(candidates);
  const groups = groupsOf(evidence, chains);
  const surface = runningEvidence(chains.surface, groups.surface, events);
  const sound = runningEvidence(chains.sound, groups.sound, events);
  const now = oddsBy(nest, chains);
  const besides = new Float64Array(width);
  besides[count] = Math.log(evidence.mishaps.neverFactor);
  let sighted = 0;
  let seen = 0;
  let heard = 0;
  let scored = 0;
  const to = Math.min(first + count - 1, lastScored(nest, until));
  for (let night: number = first; night <= to; night++) {
    const last = night - 1 - first;
    if (evidence.silence !== null && last >= 0) {
      besides[last] = besides[last]! + logOfSilence(evidence.silence, night - 1);
    }
    for (
      let next = sightings[sighted];
      next !== undefined && next.night < night;
      next = sightings[++sighted]
    ) {
      for (let c = 0; c < count; c++) {
        besides[c] = besides[c]! + Math.log(next.likelihood(first + c - next.night));
      }
      besides[count] = besides[count] + Math.log(next.likelihoodNever);
    }
    while (seen < groups.surface.at.length && groups.surface.at[seen]! < 2 * night) seen++;
    while (heard < groups.sound.at.length && groups.sound.at[heard]! < 2 * night) heard++;
    const tonight = night - first;
    if (priors.every((prior) => prior[tonight]! < tooUnlikely)) continue;
    const seenLog = surface.subarray(seen * width, (seen + 1) * width);
    const heardLog = sound.subarray(heard * width, (heard + 1) * width);
    const hastened = priors.flatMap((prior) =>
      tried.haste.map((haste) => hasten(prior, tonight, haste)),
    );
    const seenBy = tried.surfacePower.map((power) => raised(seenLog, power, null));
    const heardBy = tried.soundPower.map((power) => raised(heardLog, power, besides));
    scoreEvening(tonight, outcome(now, tonight), hastened, nevers, seenBy, heardBy, scores);
    scored++;
  }
  return scored;
}

/** Chance, as known by now, that the boil was on that night. */
function outcome({ byNight }: NestOdds, tonight: number): number {
  return byNight[tonight]!;
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
