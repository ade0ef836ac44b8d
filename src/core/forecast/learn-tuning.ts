import type { CueChains } from './cue-chains.ts';
import type { Moment } from './forecast.ts';
import type { LearningNest } from './learning-nests.ts';
import { PastEvenings, type Tried, combinationsOf } from './score-evenings.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** First the powers and the spread; then, with the best of those, the haste and how many never come up. */
const firstTried: Tried = {
  surfacePower: [0.4, 0.6, 0.8, 1, 1.25],
  soundPower: [0.4, 0.6, 0.8, 1, 1.25],
  spreadFactor: [0.6, 0.8, 1, 1.2],
  haste: [1],
  neverOdds: [1],
};
const secondTried = {
  haste: [0.7, 0.85, 1, 1.15, 1.3, 1.5, 1.75],
  neverOdds: [0.2, 0.35, 0.6, 1, 1.6],
};
/** SDs of what is tried about the defaults; all but the powers on the log scale (guesses). */
const powerSd = 0.3;
const spreadSd = 0.2;
const hasteSd = 0.4;
const neverSd = 0.7;

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
  // A nest of unknown age never had a rank to speak of.
  const evenings = nests
    .filter((nest) => nest.priorAt(1) !== null)
    .map((nest) => new PastEvenings(nest, chains, until));
  const first = bestOf(firstTried, evenings);
  const { surfacePower, soundPower, spreadFactor } = first.tuning;
  const second = bestOf(
    {
      surfacePower: [surfacePower],
      soundPower: [soundPower],
      spreadFactor: [spreadFactor],
      ...secondTried,
    },
    evenings,
  );
  return {
    tuning: second.tuning,
    n: first.n,
    logScore: { standard: first.standard, learned: second.score },
  };
}

/** The best of what is tried, its score and that of the default (NaN where that is not tried). */
function bestOf(
  tried: Tried,
  evenings: readonly PastEvenings[],
): { tuning: Tuning; score: number; standard: number; n: number } {
  const combinations = combinationsOf(tried);
  const scores = new Float64Array(combinations.length);
  let n = 0;
  for (const ofNest of evenings) n += ofNest.score(tried, scores);
  let best = 0;
  let highest = -Infinity;
  let standard = NaN;
  combinations.forEach((tuning, index) => {
    const against = logPrior(tuning);
    const score = scores[index]! + against;
    if (against === 0) standard = scores[index]!;
    if (score > highest + (against === 0 ? -1e-9 : 1e-9)) [best, highest] = [index, score];
  });
  return { tuning: combinations[best]!, score: scores[best]!, standard, n };
}

/** Log of the prior of a tuning; 0 for the default, less for all others. */
function logPrior(tuning: Tuning): number {
  const { surfacePower, soundPower, spreadFactor, haste, neverOdds } = tuning;
  const surface = (surfacePower - defaultTuning.surfacePower) / powerSd;
  const sound = (soundPower - defaultTuning.soundPower) / powerSd;
  const spread = Math.log(spreadFactor / defaultTuning.spreadFactor) / spreadSd;
  const hastened = Math.log(haste / defaultTuning.haste) / hasteSd;
  const never = Math.log(neverOdds / defaultTuning.neverOdds) / neverSd;
  const squares = [surface, sound, spread, hastened, never].map((deviation) => deviation ** 2);
  return -squares.reduce((sum, square) => sum + square, 0) / 2;
}
