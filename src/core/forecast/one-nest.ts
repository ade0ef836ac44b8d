import type { NestId } from '../domain/nest.ts';
import { weightsOfNormal } from '../inference/grid-function.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import {
  type Evidence,
  type LeftOut,
  type LogParts,
  logParts,
  partsWithout,
  sumOfParts,
} from './evidence.ts';
import type { Moment } from './forecast.ts';
import { type NestOdds, oddsFrom } from './nest-odds.ts';
import { hasten, priorOver } from './prior.ts';
import type { ForecastMemory } from './season-memory.ts';
import type { NestWork } from './nest-work.ts';
import { aloneSd } from './effect-layout.ts';
import { levelGrid } from './shared-effects.ts';

/** One nest among all: its work, its prior given the others, and its odds with notes left out. */
export interface OneNest {
  readonly work: NestWork;
  readonly evidence: Evidence;
  /** Prior over the candidate nights: the season level as learned from all other nests. */
  readonly prior: Float64Array;
  /** The same when nothing had been learned from other nests. */
  readonly priorAlone: Float64Array;
  readonly oddsWithout: (leftOut: LeftOut) => NestOdds;
}

/** Looks at one nest as of a moment; null when it is not on record. */
export function oneNest(
  record: SeasonRecord,
  moment: Moment,
  nest: NestId,
  memory: ForecastMemory,
): OneNest | null {
  const works = memory.workOn(record, moment);
  const index = works.findIndex((entry) => entry.record.nest.id === nest);
  const work = works[index];
  if (work === undefined) return null;
  const { candidates, evidence } = work;
  let parts: LogParts | null = null;
  const weights = new Float64Array(levelGrid.count);
  memory.effectsOf(works).without(index, weights);
  const from = moment.night - candidates.first;
  const priorBy = (levels: Float64Array): Float64Array =>
    hasten(priorOver(work.prior, candidates.count, levels), from, memory.tuning.haste);
  const prior = priorBy(weights);
  weightsOfNormal(levelGrid, 0, aloneSd, weights);
  return {
    work,
    evidence,
    prior,
    priorAlone: priorBy(weights),
    oddsWithout: (leftOut) => {
      parts ??= logParts(evidence, memory.chains);
      const without = partsWithout(parts, evidence, memory.chains, leftOut);
      return oddsFrom(candidates, prior, work.never, sumOfParts(without));
    },
  };
}
