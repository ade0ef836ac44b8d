import type { Species } from '../domain/species.ts';
import { cholesky, invertCholesky } from '../numerics/cholesky.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { type EffectLayout, sharedSd } from './effect-layout.ts';
import type { Moment } from './forecast.ts';
import { neverShare } from './incubation.ts';
import { middleNight, wholeYears_nights } from './lay-calendar.ts';
import { type NestOdds, logByLevel, nestOdds } from './nest-odds.ts';
import { type NestWork, sharingOf } from './nest-work.ts';
import {
  type LastingPrior,
  type SharedEffects,
  learnEffects,
  levelGrid,
} from './shared-effects.ts';
import { asNight } from '../domain/night.ts';

/** What finished seasons of a programme teach the next one. */
export interface Archive {
  readonly lasting: LastingPrior;
  /** Shares of nests that never come up, by species, as learned. */
  readonly never: ReadonlyMap<Species | null, number>;
  /** Factor on the spread between nests of one beach and season. */
  readonly spreadFactor: number;
  readonly seasons: number;
  readonly nests: number;
  readonly converged: boolean;
}

/** Whoever works on the nests of a season: a `ForecastMemory`. */
interface SeasonWorker {
  workOn: (record: SeasonRecord, moment: Moment) => readonly NestWork[];
}

/** Nights after its last note at which a season is looked back on: every nest is up or lost by then. */
const lookBackAfter = 110;
/** Nests' worth of prior on the share that never comes up. */
const neverWeight = 20;
/** Tried values and how widely the guesses scatter on the log scale (guess). */
const tried = {
  seasonSd: { values: [0.015, 0.025, 0.036, 0.05, 0.07], guess: sharedSd.season, logSd: 0.5 },
  spreadFactor: { values: [0.6, 0.7, 0.8, 0.9, 1, 1.15, 1.3], guess: 1, logSd: 0.2 },
  weekSd: { values: [0.01, 0.014, 0.02, 0.028], guess: sharedSd.week, logSd: 0.35 },
};

/**
 * Learns from finished seasons: the beach's level, the lay-date curve, zones, species and the
 * temperature correction (expectation propagation over all their nests), the spread between nests,
 * between seasons and from week to week (the values of greatest evidence, with the defaults as
 * prior), and the share that never comes up. `memoryFor` gives a memory for each season. Null when
 * no season holds a nest of known lay night.
 */
export function learnArchive(
  records: readonly SeasonRecord[],
  memoryFor: (record: SeasonRecord) => SeasonWorker,
): Archive | null {
  const seasons = records
    .map((record) => workLookingBack(record, memoryFor(record)))
    .filter((works) => works.some((work) => work.central !== null))
    .sort((a, b) => middleNight(a) - middleNight(b));
  const last = seasons.at(-1);
  if (last === undefined) return null;
  const works = seasons.flat();
  const shift = seasons.flatMap((season) =>
    season.map(() => wholeYears_nights(middleNight(season), middleNight(last))),
  );
  const seasonOf = seasons.flatMap((season, index) => season.map(() => index));
  let spreadFactor = 1;
  let hyper = { seasonSd: sharedSd.season, weekSd: sharedSd.week };
  const learn = (): SharedEffects =>
    learnEffects(
      works.map((work, index) => {
        const sharing = sharingOf(work, logAt(work, spreadFactor), seasonOf[index]!);
        const laid = sharing.laid === null ? null : sharing.laid + shift[index]!;
        return { ...sharing, laid };
      }),
      { seasons: seasons.length, withCurve: true, ...hyper },
    );
  spreadFactor = best(tried.spreadFactor, (value) => {
    spreadFactor = value;
    return learn().posterior.logEvidence;
  });
  const weekSd = best(tried.weekSd, (value) => {
    hyper = { ...hyper, weekSd: value };
    return learn().posterior.logEvidence;
  });
  hyper = { ...hyper, weekSd };
  const seasonSd = best(tried.seasonSd, (value) => {
    hyper = { ...hyper, seasonSd: value };
    return learn().posterior.logEvidence;
  });
  hyper = { ...hyper, seasonSd };
  const effects = learn();
  return {
    lasting: { ...lastingPart(effects), ...hyper },
    never: neverShares(works, effects, spreadFactor),
    spreadFactor,
    seasons: seasons.length,
    nests: works.length,
    converged: effects.converged,
  };
}

function workLookingBack(record: SeasonRecord, memory: SeasonWorker): readonly NestWork[] {
  let last = -Infinity;
  for (const { nest, visits } of record.nests.values()) {
    last = Math.max(last, nest.layNightLatest ?? -Infinity, visits.at(-1)?.night ?? -Infinity);
  }
  if (last === -Infinity) return [];
  return memory.workOn(record, { night: asNight(last + lookBackAfter), at_ms: Infinity });
}

const logAt = (work: NestWork, spreadFactor: number): Float64Array =>
  spreadFactor === 1 ? work.byLevel : logByLevel(work.priorAt(spreadFactor), work.never, work.log);

/** The value of greatest evidence with the guess as a log-normal prior. */
function best(
  { values, guess, logSd }: { values: readonly number[]; guess: number; logSd: number },
  logEvidence: (value: number) => number,
): number {
  let found = guess;
  let highest = -Infinity;
  for (const value of values) {
    const log = logEvidence(value) - (Math.log(value / guess) / logSd) ** 2 / 2;
    if (log > highest) [found, highest] = [value, log];
  }
  return found;
}

/** The normal over the lasting effects alone, the seasons' own summed out. */
function lastingPart({ layout, posterior }: SharedEffects): {
  layout: EffectLayout;
  precision: Float64Array;
  shift: Float64Array;
} {
  const size = layout.lasting;
  const covariance = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      covariance[i * size + j] = posterior.covariance[i * layout.size + j]!;
    }
  }
  const factor = new Float64Array(size * size);
  if (!cholesky(covariance, size, factor)) {
    throw new RangeError('What the seasons taught is not a proper distribution.');
  }
  const precision = new Float64Array(size * size);
  invertCholesky(factor, size, precision);
  const shift = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      shift[i] = shift[i]! + precision[i * size + j]! * posterior.mean[j]!;
    }
  }
  return { layout, precision, shift };
}

/** Expected share of nests that never came up, the default counting as some nests. */
function neverShares(
  works: readonly NestWork[],
  effects: SharedEffects,
  spreadFactor: number,
): ReadonlyMap<Species | null, number> {
  const sums = new Map<Species | null, { never: number; nests: number }>();
  const weights = new Float64Array(levelGrid.count);
  works.forEach((work, index) => {
    effects.without(index, weights);
    const { candidates } = work;
    const odds: NestOdds = nestOdds(
      candidates,
      work.priorAt(spreadFactor),
      weights,
      work.never,
      work.log,
    );
    const { species } = work.record.nest;
    const sum = sums.get(species) ?? {
      never: neverWeight * neverShare(species),
      nests: neverWeight,
    };
    sums.set(species, { never: sum.never + odds.never, nests: sum.nests + 1 });
  });
  return new Map([...sums].map(([species, { never, nests }]) => [species, never / nests]));
}
