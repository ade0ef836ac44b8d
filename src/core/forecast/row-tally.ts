import type { KnownRows } from './cue-tables.ts';

/** Notes that a default is worth, a row. */
export const priorNotes = 20;

/** Counts of states for the known rows of a table, gathered from many nests. */
export interface RowTally {
  readonly lefts: readonly number[];
  readonly states: number;
  /** Row-major: known row, then state; and their sums. */
  readonly counts: Float64Array;
  readonly weights: Float64Array;
  /** Half nights looked at, however alike one was to the next. */
  readonly notes: Float64Array;
}

/** An empty tally for the rows of a table. */
export function rowTally(rows: KnownRows): RowTally {
  const states = rows[0]?.[1].length ?? 0;
  return {
    lefts: rows.map(([left]) => left),
    states,
    counts: new Float64Array(rows.length * states),
    weights: new Float64Array(rows.length),
    notes: new Float64Array(rows.length),
  };
}

/**
 * Adds a chance of a state at so many half nights left, shared out between the two known rows it
 * lies between. `fresh` = share of it that tells more than the look before did.
 */
export function tallyState(
  tally: RowTally,
  left: number,
  state: number,
  chance: number,
  fresh: number,
): void {
  const { lefts } = tally;
  let high = 1;
  while (high < lefts.length - 1 && lefts[high]! < left) high++;
  const low = high - 1;
  const way = Math.min(1, (left - lefts[low]!) / (lefts[high]! - lefts[low]!));
  if (way < 1) addTo(tally, low, state, (1 - way) * chance, fresh);
  if (way > 0) addTo(tally, high, state, way * chance, fresh);
}

function addTo(
  { states, counts, weights, notes }: RowTally,
  row: number,
  state: number,
  chance: number,
  fresh: number,
): void {
  const cell = row * states + state;
  counts[cell] = counts[cell]! + chance * fresh;
  weights[row] = weights[row]! + chance * fresh;
  notes[row] = notes[row]! + chance;
}

/**
 * Learned row = (prior notes x default + counts) / (prior notes + their sum); exactly the default
 * where nothing was counted.
 */
export function learnedRow(
  standard: ArrayLike<number>,
  counts: ArrayLike<number>,
): readonly number[] {
  let sum = 0;
  for (let state = 0; state < counts.length; state++) sum += counts[state]!;
  return Array.from(
    { length: standard.length },
    (_, state) => standard[state]! + (counts[state]! - sum * standard[state]!) / (priorNotes + sum),
  );
}

/** As `learnedRow`, for a share of so many tries. */
export function learnedShare(standard: number, hits: number, tries: number): number {
  return standard + (hits - tries * standard) / (priorNotes + tries);
}
