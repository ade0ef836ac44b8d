import type { SeasonRecord } from '../log/season-record.ts';
import { type CueChains, cueChains } from './cue-chains.ts';
import { type SeasonTally, seasonTally, tallyNest } from './cue-tally.ts';
import { type CueTables, defaultCueTables } from './cue-tables.ts';
import type { Moment } from './forecast.ts';
import { learnTuning, type LearnedTuning } from './learn-tuning.ts';
import { type LearnedDescription, describeLearned } from './learned-cues.ts';
import { tablesFrom } from './learned-tables.ts';
import { type LearningNest, learningNests, oddsBy } from './learning-nests.ts';
import { ForecastMemory } from './season-memory.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** What a programme's own record taught: to forecast with, and beside what was assumed before. */
export interface LearnedCues extends LearnedDescription {
  readonly tables: CueTables;
  readonly tuning: Tuning;
  readonly weights: LearnedTuning;
}

/** What is to be learned. */
export interface ToLearn {
  readonly tables: boolean;
  readonly tuning: boolean;
}

/**
 * Passes over the record; by then a record drawn from far other tables has given them back. The odds
 * of each nest move little from pass to pass, and are worked out anew on every third.
 */
const passes = 12;
const oddsEvery = 3;

/**
 * Learns the cue tables, how observers read them, and the weights of cues and spread, from finished
 * seasons and from this one (the last, whose memory is `memory`), by what was known at `until`.
 * Expected counts of the hidden chains weighted by each nest's odds, and 20 notes of the default a
 * row: a record of few notes stays at the defaults, one without any gives them back exactly.
 */
export function learnCues(
  records: SeasonRecord | readonly SeasonRecord[],
  until: Moment,
  memory: ForecastMemory,
  toLearn: ToLearn = { tables: true, tuning: true },
): LearnedCues {
  const seasons: readonly SeasonRecord[] = 'nests' in records ? [records] : records;
  const nests = seasons.flatMap((record, index) =>
    learningNests(
      record,
      until,
      index === seasons.length - 1
        ? memory
        : new ForecastMemory({ tables: memory.tables, tuning: memory.tuning }),
    ),
  );
  let tally = seasonTally(defaultCueTables);
  let tables = defaultCueTables;
  let weights: readonly Float64Array[] = [];
  for (let pass = 0; toLearn.tables && pass < passes; pass++) {
    const chains = cueChains(tables, memory.tuning);
    if (pass % oddsEvery === 0) weights = nests.map((nest) => weightsBy(nest, chains));
    tally = tallyAll(nests, weights, tables, chains);
    tables = tablesFrom(tally);
  }
  const tuned = toLearn.tuning
    ? learnTuning(nests, cueChains(tables, memory.tuning), until)
    : { tuning: defaultTuning, n: 0, logScore: { standard: 0, learned: 0 } };
  return {
    tables,
    tuning: tuned.tuning,
    weights: tuned,
    ...describeLearned(tables, tally),
  };
}

/** The chance of each candidate night of a nest, then of never, by these chains. */
function weightsBy(nest: LearningNest, chains: CueChains): Float64Array {
  const { byNight, never } = oddsBy(nest, chains);
  const weights = new Float64Array(byNight.length + 1);
  weights.set(byNight);
  weights[byNight.length] = never;
  return weights;
}

function tallyAll(
  nests: readonly LearningNest[],
  weights: readonly Float64Array[],
  tables: CueTables,
  chains: CueChains,
): SeasonTally {
  const tally = seasonTally(tables);
  nests.forEach(({ evidence }, index) => {
    const ofNest = weights[index];
    if (ofNest !== undefined) tallyNest(tally, evidence, ofNest, tables, chains);
  });
  return tally;
}
