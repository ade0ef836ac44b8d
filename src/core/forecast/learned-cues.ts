import type { Experience } from '../domain/visit.ts';
import type { SeasonTally } from './cue-tally.ts';
import { type CueTables, type KnownRows, defaultCueTables } from './cue-tables.ts';
import type { Readings } from './misreading.ts';
import type { ReadingTally } from './reading-tally.ts';
import type { RowTally } from './row-tally.ts';

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

/** What a programme's own record taught, beside what was assumed before, for a screen to show. */
export interface LearnedDescription {
  readonly learnedTables: readonly LearnedTable[];
  readonly courses: readonly LearnedCourse[];
  readonly readers: readonly LearnedReader[];
}

/** Sets learned tables beside the defaults, with the number of notes behind each row. */
export function describeLearned(tables: CueTables, tally: SeasonTally): LearnedDescription {
  const { surface, sound, stethoscope } = defaultCueTables;
  return {
    learnedTables: [
      tableOf('surface', surface.rows, tables.surface.rows, tally.surface.rows),
      tableOf('sound beside the nest', sound.rows, tables.sound.rows, tally.sound.rows),
      tableOf('sound by stethoscope', stethoscope, tables.stethoscope, tally.stethoscope),
    ],
    courses: (['surface', 'sound'] as const).map((of) => courseOf(of, tables, tally)),
    readers: (['surface', 'sound'] as const).flatMap((of) => readersOf(of, tables, tally)),
  };
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
