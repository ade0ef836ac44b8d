import type { NestId } from '../domain/nest.ts';
import { learnLevel } from '../inference/shared-level.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { type LeftOut, logLikelihood } from './evidence.ts';
import type { Moment } from './forecast.ts';
import { seasonSd } from './incubation.ts';
import { type NestOdds, oddsFrom } from './nest-odds.ts';
import { priorOver } from './prior.ts';
import { type ForecastMemory, type NestWork, levelGrid } from './season-memory.ts';

/** One nest among all: its work, its prior given the others, and its odds with notes left out. */
export interface OneNest {
  readonly work: NestWork;
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
  const work = works.find((entry) => entry.record.nest.id === nest);
  if (work === undefined) return null;
  const others = works.filter((entry) => entry !== work).map((entry) => entry.byLevel);
  const { candidates } = work.evidence;
  const priorGiven = (cases: Iterable<Float64Array>): Float64Array =>
    priorOver(work.rows, candidates.count, learnLevel(levelGrid, seasonSd, cases).posterior);
  const prior = priorGiven(others);
  return {
    work,
    prior,
    priorAlone: priorGiven([]),
    oddsWithout: (leftOut) =>
      oddsFrom(candidates, prior, work.never, logLikelihood(work.evidence, memory.chains, leftOut)),
  };
}
