import type { Experience } from '../domain/visit.ts';
import { type Readings, readerKey } from './misreading.ts';
import { learnedRow } from './row-tally.ts';

const STATES = 4;

/** Readings by what was there to be read, of one reader or one class of experience; as `Readings`. */
export interface ReadingTally {
  readonly byExperience: Readonly<Record<Experience, Float64Array>>;
  readonly byReader: Map<string, ReaderTally>;
}

export interface ReaderTally {
  readonly observer: string;
  readonly experience: Experience;
  readonly counts: Float64Array;
}

export function readingTally(): ReadingTally {
  const empty = (): Float64Array => new Float64Array(STATES * STATES);
  return {
    byExperience: { novice: empty(), trained: empty(), lead: empty() },
    byReader: new Map(),
  };
}

/** Adds a chance that this was there when this was read. */
export function tallyReading(
  { byExperience, byReader }: ReadingTally,
  experience: Experience,
  observer: string | null,
  truth: number,
  reading: number,
  chance: number,
): void {
  const cell = truth * STATES + reading;
  const ofClass = byExperience[experience];
  ofClass[cell] = ofClass[cell]! + chance;
  if (observer === null) return;
  const key = readerKey(observer, experience);
  let reader = byReader.get(key);
  if (reader === undefined) {
    reader = { observer, experience, counts: new Float64Array(STATES * STATES) };
    byReader.set(key, reader);
  }
  reader.counts[cell] = reader.counts[cell]! + chance;
}

/** Tables of each class of experience, shrunk to the default; of each reader, shrunk to their class. */
export function learnedReadings(standard: Readings, tally: ReadingTally): Readings {
  const ofClass = (experience: Experience): Float64Array =>
    learnedTable(standard.byExperience[experience], tally.byExperience[experience]);
  const byExperience = {
    novice: ofClass('novice'),
    trained: ofClass('trained'),
    lead: ofClass('lead'),
  };
  const byReader = new Map<string, Float64Array>();
  for (const [key, { experience, counts }] of tally.byReader) {
    byReader.set(key, learnedTable(byExperience[experience], counts));
  }
  return { byExperience, byReader };
}

function learnedTable(standard: Float64Array, counts: Float64Array): Float64Array {
  const table = new Float64Array(STATES * STATES);
  for (let truth = 0; truth < STATES; truth++) {
    const from = truth * STATES;
    const to = from + STATES;
    table.set(learnedRow(standard.subarray(from, to), counts.subarray(from, to)), from);
  }
  return table;
}
