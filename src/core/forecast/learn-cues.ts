import type { Experience } from '../domain/visit.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { type CueChains, cueChains } from './cue-chains.ts';
import { type SeasonTally, seasonTally, tallyNest } from './cue-tally.ts';
import { type CueTables, type KnownRows, defaultCueTables } from './cue-tables.ts';
import type { Moment } from './forecast.ts';
import { learnTuning, type LearnedTuning } from './learn-tuning.ts';
import { tablesFrom } from './learned-tables.ts';
import { type LearningNest, learningNests, oddsBy } from './learning-nests.ts';
import type { Readings } from './misreading.ts';
import type { ReadingTally } from './reading-tally.ts';
import type { RowTally } from './row-tally.ts';
import { ForecastMemory } from './season-memory.ts';
import { type Tuning, defaultTuning } from './tuning.ts';

/** A row of chances as it was and as learned, and the expected number of notes behind it. */
export interface LearnedRow {
  readonly standard: readonly number[];
  readonly learned: readonly number[];
  readonly n: number;
}

export interface LearnedShare {
  readonly standard: number;
  readonly learned: number;
  /** Half nights between looks that it was learned from. */
  readonly n: number;
}

/** The rows of one cue by one way of noting it. */
export interface LearnedTable {
  readonly of: 'surface' | 'sound beside the nest' | 'sound by stethoscope';
  readonly rows: readonly (LearnedRow & { readonly nightsLeft: number })[];
}

/** How one cue stays and goes, and what the boil leaves of it. */
export interface LearnedCourse {
  readonly of: 'surface' | 'sound';
  readonly redrawNear: LearnedShare;
  readonly redrawFar: LearnedShare;
  readonly redrawAfter: LearnedShare;
  readonly afterBoil: LearnedRow;
}

/** How one class of experience, or one observer of it, reads a cue; one row for each true state. */
export interface LearnedReader {
  readonly of: 'surface' | 'sound';
  readonly experience: Experience;
  /** Null = the class as a whole; its standard is the default, an observer's is their class. */
  readonly observer: string | null;
  readonly rows: readonly LearnedRow[];
  readonly n: number;
}

/** What a programme's own record taught, beside what was assumed before. */
export interface LearnedCues {
  readonly tables: CueTables;
  readonly tuning: Tuning;
  readonly learnedTables: readonly LearnedTable[];
  readonly courses: readonly LearnedCourse[];
  readonly readers: readonly LearnedReader[];
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
    learnedTables: [
      tableOf('surface', defaultCueTables.surface.rows, tables.surface.rows, tally.surface.rows),
      tableOf(
        'sound beside the nest',
        defaultCueTables.sound.rows,
        tables.sound.rows,
        tally.sound.rows,
      ),
      tableOf(
        'sound by stethoscope',
        defaultCueTables.stethoscope,
        tables.stethoscope,
        tally.stethoscope,
      ),
    ],
    courses: (['surface', 'sound'] as const).map((of) => courseOf(of, tables, tally)),
    readers: (['surface', 'sound'] as const).flatMap((of) => readersOf(of, tables, tally)),
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

function tableOf(
  of: LearnedTable['of'],
  standard: KnownRows,
  learned: KnownRows,
  { notes }: RowTally,
): LearnedTable {
  return {
    of,
    rows: standard.map(([left, row], index) => ({
      nightsLeft: left / 2,
      standard: row,
      learned: learned[index]![1],
      n: notes[index]!,
    })),
  };
}

function courseOf(of: 'surface' | 'sound', tables: CueTables, tally: SeasonTally): LearnedCourse {
  const { moves, afterStart } = tally[of];
  const { redraw, after } = defaultCueTables[of];
  const learned = tables[of];
  return {
    of,
    redrawNear: { standard: redraw.near, learned: learned.redraw.near, n: moves.near },
    redrawFar: { standard: redraw.far, learned: learned.redraw.far, n: moves.far },
    redrawAfter: { standard: after.redraw, learned: learned.after.redraw, n: moves.after },
    afterBoil: { standard: after.start, learned: learned.after.start, n: sum(afterStart) },
  };
}

function readersOf(
  of: 'surface' | 'sound',
  tables: CueTables,
  tally: SeasonTally,
): LearnedReader[] {
  const channel = of === 'surface' ? 'surfaceReadings' : 'soundReadings';
  const standard: Readings = defaultCueTables[channel];
  const learned: Readings = tables[channel];
  const { byExperience, byReader }: ReadingTally = tally[of].readings;
  const classes = (['novice', 'trained', 'lead'] as const).map((experience) => ({
    of,
    experience,
    observer: null,
    ...rowsOf(standard.byExperience[experience], learned.byExperience[experience], {
      counts: byExperience[experience],
    }),
  }));
  const single = [...byReader].map(([key, reader]) => {
    const ofClass = learned.byExperience[reader.experience];
    return {
      of,
      experience: reader.experience,
      observer: reader.observer,
      ...rowsOf(ofClass, learned.byReader.get(key) ?? ofClass, reader),
    };
  });
  return [...classes, ...single];
}

function rowsOf(
  standard: Float64Array,
  learned: Float64Array,
  { counts }: { readonly counts: Float64Array },
): { rows: LearnedRow[]; n: number } {
  const rows = [0, 1, 2, 3].map((truth) => ({
    standard: [...standard.subarray(truth * 4, truth * 4 + 4)],
    learned: [...learned.subarray(truth * 4, truth * 4 + 4)],
    n: sum(counts.subarray(truth * 4, truth * 4 + 4)),
  }));
  return { rows, n: sum(counts) };
}

function sum(values: Float64Array): number {
  return values.reduce((total, value) => total + value, 0);
}
