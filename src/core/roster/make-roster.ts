import { brokenPins } from './broken-pins.ts';
import { explainPins, explainShortage, noticesOf } from './explain-infeasible.ts';
import { gainOf } from './gain.ts';
import { type Openings, openingsOf } from './openings.ts';
import type { Roster } from './plan.ts';
import type { RosterQuestion } from './roster-question.ts';
import type { RosterEffort } from './solve-question.ts';
import { solveByZones } from './solve-by-zones.ts';
import type { Solver } from './solver.ts';

/** Rounding of the solver that is not taken for a difference. */
const tolerance = 1e-6;

/**
 * The best plan that can be had in the time, the bound it is measured against, and in words what could
 * not be met. Pins come first, then worth, then few changes and even shares (`roster-program.ts`). Never
 * worth less than the plan made step by step.
 */
export async function makeRoster(
  question: RosterQuestion,
  solver: Solver,
  effort: RosterEffort,
): Promise<Roster> {
  const found = openingsOf(question);
  const { plan, bound: proven, trouble } = await solveByZones(question, solver, effort);
  const bound = Math.max(plan.value, Math.min(proven, looseBound(question, found)));
  const unmet = new Set(brokenPins(plan, found));
  return {
    plan,
    bound,
    gap: bound <= plan.value ? 0 : (bound - plan.value) / Math.max(plan.value, tolerance),
    unmet: [
      ...explainPins(question, found, plan, unmet),
      ...explainShortage(question, found, plan),
    ],
    notices: noticesOf(question, found, plan),
    trouble,
  };
}

/** What the best posts of every watch are worth with as many crews as its people make: no plan has more. */
function looseBound({ rules }: RosterQuestion, { shifts, openings }: Openings): number {
  let bound = 0;
  for (const shift of shifts) {
    const here = openings.filter((opening) => opening.shift === shift);
    const people = new Set(here.flatMap(({ hands }) => hands.map(({ sitter }) => sitter)));
    const crews = Math.min(Math.floor(people.size / rules.crew), rules.mostPosts ?? Infinity);
    const gains = here.flatMap(({ posts }) =>
      posts.map((post) => gainOf(shift, post, shift, rules.goal)),
    );
    bound += gains
      .sort((a, b) => b - a)
      .slice(0, crews)
      .reduce((sum, gain) => sum + gain, 0);
  }
  return bound;
}
