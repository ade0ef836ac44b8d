import type { Experience } from '../domain/visit.ts';

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
export function misreading(states: number, share: number): Float64Array {
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
export function mishearing(states: number, experience: Experience): Float64Array {
  const table = misreading(states, misreadShare[experience]);
  if (experience === 'novice') {
    table[0] = table[0]! - noviceHears;
    table[1] = table[1]! + noviceHears;
  }
  return table;
}
