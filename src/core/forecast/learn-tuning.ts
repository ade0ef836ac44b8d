import { runningEvidence } from '../inference/running-evidence.ts';
import type { CueChains } from './cue-chains.ts';
import { groupsOf } from './cue-tally.ts';
import { eventHalves } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { type LearningNest, oddsBy } from './learning-nests.ts';
import type { NestOdds } from './nest-odds.ts';
import { priorOver } from './prior.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** What is tried for the power of each channel, and for the factor on the spread. */
const powers = [0.4, 0.6, 0.8, 1];
const spreadFactors = [0.6, 0.8, 1, 1.2];
const combinations = powers.length * powers.length * spreadFactors.length;
/** SDs of what is tried about the defaults; the spread on the log scale (guesses). */
const powerSd = 0.2;
const spreadSd = 0.2;
/** A nest this unlikely to boil on an evening by any spread tells nothing of how to weigh its cues. */
const tooUnlikely = 1e-4;

/** What the running log score of past evenings says of the tuning. */
export interface LearnedTuning {
  readonly tuning: Tuning;
  /** Evenings of nests that were scored. */
  readonly n: number;
  /** Sum of their log scores by the default and as learned. */
  readonly logScore: { readonly standard: number; readonly learned: number };
}

/**
 * The tuning under which the odds that would have been given on past evenings score best, each
 * deviation from the default held against it as by a normal prior. The odds on an evening use what
 * was noted before it; an outcome nobody saw counts by its chance as known by now.
 */
export function learnTuning(
  nests: readonly LearningNest[],
  chains: CueChains,
  until: Moment,
): LearnedTuning {
  const scores = new Float64Array(combinations);
  let n = 0;
  for (const nest of nests) n += scoreNest(nest, chains, until, scores);
  let best = indexOf(defaultTuning);
  let bestScore = scores[best]!;
  for (let index = 0; index < combinations; index++) {
    const score = scores[index]! + logPrior(tuningAt(index));
    if (score > bestScore + 1e-9) {
      best = index;
      bestScore = score;
    }
  }
  const standard = scores[indexOf(defaultTuning)]!;
  return { tuning: tuningAt(best), n, logScore: { standard, learned: scores[best]! } };
}

function tuningAt(index: number): Tuning {
  const sound = Math.floor(index / spreadFactors.length) % powers.length;
  return {
    surfacePower: powers[Math.floor(index / (spreadFactors.length * powers.length))]!,
    soundPower: powers[sound]!,
    spreadFactor: spreadFactors[index % spreadFactors.length]!,
  };
}

function indexOf({ surfacePower, soundPower, spreadFactor }: Tuning): number {
  const channels = powers.indexOf(surfacePower) * powers.length + powers.indexOf(soundPower);
  return channels * spreadFactors.length + spreadFactors.indexOf(spreadFactor);
}

function logPrior({ surfacePower, soundPower, spreadFactor }: Tuning): number {
  const surface = (surfacePower - defaultTuning.surfacePower) / powerSd;
  const sound = (soundPower - defaultTuning.soundPower) / powerSd;
  const spread = Math.log(spreadFactor / defaultTuning.spreadFactor) / spreadSd;
  return -(surface * surface + sound * sound + spread * spread) / 2;
}

/** Adds the scores of a nest's past evenings, by combination; gives how many evenings those were. */
function scoreNest(
  nest: LearningNest,
  chains: CueChains,
  until: Moment,
  scores: Float64Array,
): number {
  const { evidence, never } = nest;
  const { candidates, sightings } = evidence;
  const { first, count } = candidates;
  if (nest.priorAt(1) === null) return 0; // of unknown age: it never had a rank to speak of
  const width = count + 1;
  const priors = spreadFactors.map((factor) =>
    priorOver(nest.priorAt(factor), count, nest.levels).map((p) => (1 - never) * p),
  );
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
  const from = Math.max(first, firstNoted(nest));
  const to = Math.min(first + count - 1, lastScored(nest, until));
  for (let night = from; night <= to; night++) {
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
    scoreEvening(tonight, outcome(now, tonight), priors, never, seenLog, heardLog, besides, scores);
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
  never: number,
  seenLog: Float64Array,
  heardLog: Float64Array,
  besides: Float64Array,
  scores: Float64Array,
): void {
  const seen = powers.map((power) => raised(seenLog, power, null));
  const heard = powers.map((power) => raised(heardLog, power, besides));
  const count = seenLog.length - 1;
  let index = 0;
  for (const ofSurface of seen) {
    for (const ofSound of heard) {
      for (const prior of priors) {
        let total = never * ofSurface[count]! * ofSound[count]!;
        for (let c = 0; c < count; c++) total += prior[c]! * ofSurface[c]! * ofSound[c]!;
        const weight = prior[tonight]! * ofSurface[tonight]! * ofSound[tonight]!;
        const p = total > 0 ? Math.min(1 - 1e-9, Math.max(1e-9, weight / total)) : 0.5;
        const score = boiled * Math.log(p) + (1 - boiled) * Math.log1p(-p);
        scores[index] = scores[index]! + score;
        index++;
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

function firstNoted({ evidence: { surface, sound, sightings } }: LearningNest): number {
  return Math.min(
    surface[0]?.visit.night ?? Infinity,
    sound[0]?.visit.night ?? Infinity,
    sightings[0]?.night ?? Infinity,
  );
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
