import { inOrder } from './crew.ts';
import { type Openings, openingsOf } from './openings.ts';
import { planOf } from './plan.ts';
import type { RosterQuestion } from './roster-question.ts';
import { type RosterEffort, type SolvedQuestion, solveQuestion } from './solve-question.ts';
import type { Solver } from './solver.ts';
import { separateParts } from './zone-parts.ts';

/**
 * The best plan in the time, zone by zone as far as zones share no people: their best plans together
 * are the best of all, and what bounds them adds up. Each part has its share of the time by the people
 * to be placed; what one leaves over goes to the next.
 */
export async function solveByZones(
  question: RosterQuestion,
  solver: Solver,
  effort: RosterEffort,
): Promise<SolvedQuestion> {
  const parts = separateParts(question, openingsOf(question))
    .map((part) => ({ part, found: openingsOf(part) }))
    .sort((a, b) => placings(a.found) - placings(b.found));
  let left_s = effort.time_s;
  let ahead = parts.reduce((sum, { found }) => sum + placings(found), 0);
  const solved: SolvedQuestion[] = [];
  for (const { part, found } of parts) {
    const share = placings(found) / Math.max(1, ahead);
    const time_s = left_s * share;
    const one = await solveQuestion(part, found, solver, { ...effort, time_s });
    solved.push(one);
    left_s = Math.max(0, left_s - one.took_s);
    ahead -= placings(found);
  }
  return {
    plan: planOf(
      inOrder(
        question,
        solved.flatMap(({ plan }) => plan.posts),
      ),
    ),
    bound: solved.reduce((sum, { bound }) => sum + bound, 0),
    trouble: solved.find(({ trouble }) => trouble !== null)?.trouble ?? null,
    took_s: effort.time_s - left_s,
  };
}

/** In how many ways somebody could be placed: people by watch and zone. */
function placings({ openings }: Openings): number {
  return openings.reduce((sum, { hands }) => sum + hands.length, 0);
}
