import type { Watch } from '../domain/visit.ts';
import { holds } from './gain.ts';
import type { Opening } from './openings.ts';
import type { RosterQuestion } from './roster-question.ts';

/** People of one opening who are interchangeable: as experienced, there from and to the same times. */
export interface HandClass {
  readonly experienced: boolean;
  readonly duty: Watch;
  /** Indices among the hands of the opening. */
  readonly hands: readonly number[];
}

/** The people of an opening by experience and hours. */
export function handClasses({ sitters }: RosterQuestion, { hands }: Opening): readonly HandClass[] {
  const classes = new Map<string, { experienced: boolean; duty: Watch; hands: number[] }>();
  hands.forEach(({ sitter, duty }, hand) => {
    const experienced = sitters[sitter]?.experienced ?? false;
    const key = `${String(experienced)} ${duty.from_ms} ${duty.to_ms}`;
    const known = classes.get(key);
    if (known === undefined) classes.set(key, { experienced, duty, hands: [hand] });
    else known.hands.push(hand);
  });
  return [...classes.values()];
}

/**
 * The stretches of time for which a post may be kept: each from when somebody comes to when somebody
 * goes, as far as there is a crew for it.
 */
export function dutiesFor(
  classes: readonly HandClass[],
  { rules }: RosterQuestion,
): readonly Watch[] {
  const starts = new Set(classes.map(({ duty }) => duty.from_ms));
  const ends = new Set(classes.map(({ duty }) => duty.to_ms));
  const duties = [...starts].flatMap((from_ms) => [...ends].map((to_ms) => ({ from_ms, to_ms })));
  const count = (there: readonly HandClass[]): number =>
    there.reduce((sum, { hands }) => sum + hands.length, 0);
  return duties.filter((duty) => {
    const there = classes.filter((entry) => holds(entry.duty, duty));
    const skilled = there.filter(({ experienced }) => experienced);
    return (
      duty.to_ms > duty.from_ms && count(there) >= rules.crew && count(skilled) >= rules.experienced
    );
  });
}
