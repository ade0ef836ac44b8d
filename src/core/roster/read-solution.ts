import { inOrder, plannedPost } from './crew.ts';
import { holds } from './gain.ts';
import { matchSeats } from './match-seats.ts';
import type { KeptChoice, OpeningColumns } from './opening-columns.ts';
import type { Hand } from './openings.ts';
import { type Plan, type PlannedPost, planOf } from './plan.ts';
import type { RosterProgram } from './roster-program.ts';
import type { RosterQuestion } from './roster-question.ts';

/** The plan that a solution of the program stands for: who sits in a zone is spread over its posts. */
export function readSolution(
  question: RosterQuestion,
  { openings }: RosterProgram,
  values: ArrayLike<number>,
): Plan {
  const isChosen = ({ column }: { readonly column: number }): boolean =>
    (values[column] ?? 0) > 0.5;
  return planOf(
    inOrder(
      question,
      openings.flatMap((columns) => seated(question, columns, isChosen)),
    ),
  );
}

/** Somebody's place at a kept post, by experience asked for. */
interface Seat {
  readonly kept: KeptChoice;
  readonly skilled: boolean;
}

function seated(
  question: RosterQuestion,
  { opening, kept, sits, named }: OpeningColumns,
  isChosen: (choice: { readonly column: number }) => boolean,
): PlannedPost[] {
  const { crew, experienced } = question.rules;
  const { hands, posts } = opening;
  const isSkilled = (hand: number): boolean =>
    question.sitters[hands[hand]?.sitter ?? -1]?.experienced ?? false;
  const crews = new Map<KeptChoice, number[]>(kept.filter(isChosen).map((choice) => [choice, []]));
  for (const choice of named.filter(isChosen)) crews.get(choice.kept)?.push(choice.hand);
  const placed = new Set([...crews.values()].flat());
  const free = [...hands.keys()].filter(
    (hand) => !placed.has(hand) && isChosen({ column: sits[hand] ?? -1 }),
  );
  const seats = [...crews].flatMap(([choice, there]): Seat[] => {
    const wanted = Math.max(0, experienced - there.filter(isSkilled).length);
    return Array.from({ length: crew - there.length }, (_, index) => ({
      kept: choice,
      skilled: index < wanted,
    }));
  });
  const fits = seats.map((seat) =>
    free.filter((hand) => {
      const duty = hands[hand]?.duty;
      return (
        duty !== undefined && holds(duty, seat.kept.duty) && (!seat.skilled || isSkilled(hand))
      );
    }),
  );
  matchSeats(fits).forEach((hand, seat) => {
    const choice = seats[seat]?.kept;
    if (hand !== null && choice !== undefined) crews.get(choice)?.push(hand);
  });
  return [...crews].flatMap(([{ post }, there]): PlannedPost[] => {
    const where = posts[post];
    const people = there.flatMap((hand): readonly Hand[] => hands.slice(hand, hand + 1));
    // A seat left empty would be the solver's rounding; such a post is not kept, and worth nothing.
    if (where === undefined || people.length !== crew) return [];
    const planned = plannedPost(question, opening, where, people);
    return planned === null ? [] : [planned];
  });
}
