import type { Night } from '../../src/core/domain/night.ts';
import { type NestOdds, oddsFrom } from '../../src/core/forecast/nest-odds.ts';
import { oneNest } from '../../src/core/forecast/one-nest.ts';
import { ForecastMemory } from '../../src/core/forecast/season-memory.ts';
import type { Tuning } from '../../src/core/forecast/tuning.ts';
import { normalCdf } from '../../src/core/numerics/normal.ts';
import { type Random, randomStream } from '../../src/core/numerics/random.ts';
import { type DrawOptions, type DrawnSeason, drawSeason } from './draw-from-prior.ts';

/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari and Gelman 2018, "Validating
 * Bayesian Inference Algorithms with Simulation-Based Calibration", arXiv:1804.06788): when truth and
 * data are drawn from the model's own prior, the rank of the truth in its posterior is uniform.
 */

/** Cues weigh what the chains say: the powers below 1 guard against a world that is not the model. */
export const plainTuning: Tuning = {
  surfacePower: 1,
  soundPower: 1,
  spreadFactor: 1,
  haste: 1,
  neverOdds: 1,
};

/** One nest of a drawn season: what was said of it, and what came. */
export interface JudgedNest {
  /** Rank of the truth among the nights, past ones and never included; between 0 and 1. */
  readonly rank: number;
  /** Not yet seen boiling at the cut. */
  readonly open: boolean;
  readonly tonight: { readonly said: number; readonly came: boolean };
  readonly already: { readonly said: number; readonly came: boolean };
  readonly never: { readonly said: number; readonly came: boolean };
}

/** One drawn season: the season level said and true (log scale), and its nests. */
export interface JudgedSeason {
  readonly rank: number;
  readonly error: number;
  readonly sd: number;
  /** The mean log duration of the nests seen boiling against 55 nights, less the true level. */
  readonly naiveError: number | null;
  readonly converged: boolean;
  readonly nests: readonly JudgedNest[];
}

/**
 * Draws seasons from the prior and holds what the program says of each against the truth. With another
 * `tuning` the program is made to believe something else than the seasons are drawn from.
 */
export function judgeSeasons(
  seeds: readonly number[],
  options: DrawOptions,
  tuning: Tuning = plainTuning,
): JudgedSeason[] {
  const { chains } = new ForecastMemory({ tuning: plainTuning });
  return seeds.map((seed) => {
    const memory = new ForecastMemory({ tuning });
    return judge(drawSeason(seed, chains, options), memory, randomStream(seed, 'ranks'));
  });
}

/** `count` seeds in a row. */
export function seedsFrom(first: number, count: number): number[] {
  return Array.from({ length: count }, (_, index) => first + index);
}

function judge(drawn: DrawnSeason, memory: ForecastMemory, random: Random): JudgedSeason {
  const { record, moment, level, boils } = drawn;
  const works = memory.workOn(record, moment);
  const { season, converged } = memory.effectsOf(works);
  const seenDurations: number[] = [];
  const nests = [...boils].map(([id, truth]) => {
    const found = oneNest(record, moment, id, memory);
    if (found === null) throw new Error(`${id} is not on record.`);
    const { work, prior } = found;
    const odds = oddsFrom(work.evidence.candidates, prior, work.never, work.log);
    const { boil } = work.evidence;
    const { layNight, layNightLatest } = work.record.nest;
    if (boil !== null && layNight !== null && layNightLatest !== null) {
      seenDurations.push(Math.log((boil.night - (layNight + layNightLatest) / 2) / 55));
    }
    return judgeNest(odds, truth, moment.night, boil === null, random.uniform());
  });
  const naive = seenDurations.reduce((sum, log) => sum + log, 0) / seenDurations.length;
  return {
    rank: normalCdf((level - season.mean) / season.sd),
    error: season.mean - level,
    sd: season.sd,
    naiveError: seenDurations.length === 0 ? null : naive - level,
    converged,
    nests,
  };
}

/** The rank of a discrete truth: what lies below it, and a share `u` of its own probability. */
function judgeNest(
  { candidates, byNight, never }: NestOdds,
  truth: Night | null,
  tonight: Night,
  open: boolean,
  u: number,
): JudgedNest {
  let below = 0;
  let at = truth === null ? never : 0;
  let already = 0;
  byNight.forEach((p, index) => {
    const night = candidates.first + index;
    if (truth === null || night < truth) below += p;
    if (night === truth) at = p;
    if (night < tonight) already += p;
  });
  return {
    rank: below + u * at,
    open,
    tonight: { said: byNight[tonight - candidates.first] ?? 0, came: truth === tonight },
    already: { said: already, came: truth !== null && truth < tonight },
    never: { said: never, came: truth === null },
  };
}

/** The ranks of the open nests of each season: those of one season are not independent of each other. */
export function openRanks(seasons: readonly JudgedSeason[]): number[][] {
  return seasons.map(({ nests }) => nests.filter(({ open }) => open).map(({ rank }) => rank));
}

/** The rank of one nest of each season that was open at the cut, drawn by lot: independent ranks. */
export function oneRankEach(seasons: readonly JudgedSeason[], seed: number): number[] {
  const random = randomStream(seed, 'one nest each');
  return openRanks(seasons).flatMap((ranks) => (ranks.length === 0 ? [] : [random.choice(ranks)]));
}
