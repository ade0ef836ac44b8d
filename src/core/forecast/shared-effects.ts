import { type EffectPosterior, propagate } from '../inference/expectation-propagation.ts';
import { gridTo, weightsOfNormal } from '../inference/grid-function.ts';
import {
  type EffectLayout,
  type Membership,
  layOutEffects,
  levelLoads,
  priorPrecision,
  sharedSd,
  takePart,
  termsPerNest,
} from './effect-layout.ts';

/** Levels of eta considered, on the log scale of incubation: +-0.45 by 0.0125. */
export const levelGrid = gridTo(0.45, 0.0125);

/** What one nest brings to the shared effects. */
export interface Sharing extends Membership {
  /** Log-likelihood of what was noted of it by level. */
  readonly byLevel: Float64Array;
}

/** What earlier seasons say of the effects that come back: normal, by natural parameters. */
export interface LastingPrior {
  readonly layout: EffectLayout;
  /** Of the first `layout.lasting` effects; row-major. */
  readonly precision: Float64Array;
  readonly shift: Float64Array;
  /** Spread between seasons of this beach and from week to week of one, as learned. */
  readonly seasonSd: number;
  readonly weekSd: number;
}

export interface LearnOptions {
  readonly earlier?: LastingPrior | null;
  /** How many seasons the nests are of; 1 unless said. */
  readonly seasons?: number;
  /** Whether to learn a lay-date curve that comes back every year. */
  readonly withCurve?: boolean;
  readonly seasonSd?: number;
  readonly weekSd?: number;
  /** What was learned of the same nests before one of them changed: to start from. */
  readonly before?: SharedEffects | null;
}

/** What nests share, as learned from all of them, and what that says of each. */
export interface SharedEffects {
  /** Mean and SD of the season level on the log scale: the whole beach, early or late. */
  readonly season: { readonly mean: number; readonly sd: number };
  readonly converged: boolean;
  readonly sweeps: number;
  readonly layout: EffectLayout;
  readonly posterior: EffectPosterior;
  /** Writes weights on the level grid: eta of nest `index` given all other nests. They sum to 1. */
  readonly without: (index: number, into: Float64Array) => void;
}

/**
 * Learns what nests share from every nest, emerged or not: eta = beach + season + lay-date curve +
 * week of this season + zone + species + temperature correction, normal priors, or what earlier
 * seasons said. With `seasons` above 1 the lay-date curve that they have in common is learned too.
 */
export function learnEffects(nests: readonly Sharing[], options: LearnOptions = {}): SharedEffects {
  const { earlier = null, seasons = 1, withCurve = false } = options;
  const seasonSd = options.seasonSd ?? earlier?.seasonSd ?? sharedSd.season;
  const weekSd = options.weekSd ?? earlier?.weekSd ?? sharedSd.week;
  const layout = layOutEffects(nests, seasons, earlier?.layout ?? null, withCurve);
  const prior = priorWith(earlier, layout, seasonSd, weekSd);
  const posterior = propagate(
    {
      count: nests.length,
      terms: termsPerNest,
      ...takePart(nests, layout),
      grid: levelGrid,
      logLikelihood: nests.map((nest) => nest.byLevel),
    },
    prior.precision,
    { priorShift: prior.shift, start: options.before?.posterior.sites ?? null },
  );
  return {
    season: levelOf(posterior, levelLoads(layout, seasons - 1)),
    converged: posterior.converged,
    sweeps: posterior.sweeps,
    layout,
    posterior,
    without(index, into) {
      const { cavityMean, cavitySd } = posterior;
      weightsOfNormal(levelGrid, cavityMean[index]!, cavitySd[index]!, into);
    },
  };
}

/** The prior of a layout, its lasting part replaced by what earlier seasons said. */
function priorWith(
  earlier: LastingPrior | null,
  layout: EffectLayout,
  seasonSd: number,
  weekSd: number,
): { precision: Float64Array; shift: Float64Array } {
  const precision = priorPrecision(layout, seasonSd, weekSd);
  const shift = new Float64Array(layout.size);
  if (earlier === null) return { precision, shift };
  const known = earlier.layout.lasting;
  for (let i = 0; i < known; i++) {
    for (let j = 0; j < known; j++) {
      precision[i * layout.size + j] = earlier.precision[i * known + j]!;
    }
    shift[i] = earlier.shift[i]!;
  }
  return { precision, shift };
}

function levelOf({ mean, covariance }: EffectPosterior, loads: Float64Array) {
  const size = mean.length;
  let level = 0;
  let variance = 0;
  for (let i = 0; i < size; i++) {
    level += loads[i]! * mean[i]!;
    for (let j = 0; j < size; j++) variance += loads[i]! * loads[j]! * covariance[i * size + j]!;
  }
  return { mean: level, sd: Math.sqrt(variance) };
}
