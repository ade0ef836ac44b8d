import type { Experience } from '../domain/visit.ts';

/** True states and readings of a cue. */
const STATES = 4;

/**
 * How a cue is read: the chance of each reading given the true state, row-major (true state, then
 * reading), 16 values.
 */
export interface Readings {
  readonly byExperience: Readonly<Record<Experience, Float64Array>>;
  /** Tables of single observers who have their own; by `readerKey`. */
  readonly byReader: ReadonlyMap<string, Float64Array>;
}

/** One person at one stage of experience: whoever learns starts a table of their own. */
export function readerKey(observer: string, experience: Experience): string {
  return `${experience}|${observer}`;
}

/** The table by which a reading is weighed: the observer's own, else that of their experience. */
export function readingTable(
  { byExperience, byReader }: Readings,
  experience: Experience,
  observer: string | null,
): Float64Array {
  const own =
    observer === null || byReader.size === 0
      ? undefined
      : byReader.get(readerKey(observer, experience));
  return own ?? byExperience[experience];
}

/** How a cue is read before anything is learned of the observers. */
export function defaultReadings(channel: 'surface' | 'sound'): Readings {
  const table = (experience: Experience): Float64Array =>
    channel === 'surface'
      ? misreading(STATES, misreadShare[experience])
      : mishearing(STATES, experience);
  return {
    byExperience: { novice: table('novice'), trained: table('trained'), lead: table('lead') },
    byReader: new Map(),
  };
}

/**
 * Share of looks read one step off, by experience (guess). Experience that is not said counts as
 * trained.
 */
export const misreadShare: Record<Experience, number> = { lead: 0.06, trained: 0.12, novice: 0.22 };

/** Share of silences in which a novice hears something all the same (guess). */
export const noviceHears = 0.05;

/**
 * Chance of each reading given the true state, row-major (true state, then reading). The misread
 * share splits half up, half down; at an end state only the inner half remains.
 */
function misreading(states: number, share: number): Float64Array {
  const table = new Float64Array(states * states);
  for (let truth = 0; truth < states; truth++) {
    let off = 0;
    for (const reading of [truth - 1, truth + 1]) {
      if (reading < 0 || reading >= states) continue;
      table[truth * states + reading] = share / 2;
      off += share / 2;
    }
    table[truth * states + truth] = 1 - off;
  }
  return table;
}

/** As `misreading`, for sound: a novice hears something in some silences besides. */
function mishearing(states: number, experience: Experience): Float64Array {
  const table = misreading(states, misreadShare[experience]);
  if (experience === 'novice') {
    table[0] = table[0]! - noviceHears;
    table[1] = table[1]! + noviceHears;
  }
  return table;
}
