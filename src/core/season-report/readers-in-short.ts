import type { LearnedReader, LearnedRow } from '../forecast/learned-cues.ts';
import type { Experience } from '../domain/visit.ts';

/** How often one class, or one person, reads a cue as another than it is. */
export interface ReaderInShort {
  readonly of: 'surface' | 'sound';
  readonly experience: Experience;
  /** Null = the class as a whole. */
  readonly observer: string | null;
  /** Share misread before: by default for a class, by their class for a person. */
  readonly standard: number;
  readonly learned: number;
  /** Expected number of notes behind it. */
  readonly n: number;
}

/**
 * Misreading in one number: the mean over the true states, each weighted by how often it was looked
 * at (evenly while nothing was), so that standard and learned are held to the same looks.
 */
export function readersInShort(readers: readonly LearnedReader[]): readonly ReaderInShort[] {
  return readers.map(({ of, experience, observer, rows, n }) => {
    const misread = (which: 'standard' | 'learned'): number => misreadShare(rows, n, which);
    return {
      of,
      experience,
      observer,
      standard: misread('standard'),
      learned: misread('learned'),
      n,
    };
  });
}

function misreadShare(
  rows: readonly LearnedRow[],
  n: number,
  which: 'standard' | 'learned',
): number {
  return rows.reduce((sum, row, truth) => {
    const weight = n > 0 ? row.n / n : 1 / rows.length;
    return sum + weight * (1 - (row[which][truth] ?? 0));
  }, 0);
}
