import { explainPins, explainShortage, noticesOf } from './explain-infeasible.ts';
import { gainOf } from './gain.ts';
import { greedyPlan } from './greedy-plan.ts';
import { type Openings, openingsOf } from './openings.ts';
import { type Plan, type Roster, planOf } from './plan.ts';
import { readSolution } from './read-solution.ts';
import { type Aim, rosterProgram } from './roster-program.ts';
import type { RosterQuestion } from './roster-question.ts';
import { solveProgram } from './solve-program.ts';
import type { Solved, Solver } from './solver.ts';
import { startFrom } from './start-from.ts';

export interface RosterEffort {
  /** Seconds for all of it. */
  readonly time_s: number;
  /** Within this share of the bound a plan is good enough. */
  readonly gap: number;
}

/** How the time is shared out: keeping pins, the worth of the plan, whom it asks. */
const shares = { pins: 0.2, worth: 0.5, people: 0.3 };
/** Of its worth a plan may give up this share to spare people (guess); no post is given up. */
const sparing = 0.005;
const sparingAgain = 0.01;
/** How near the fewest changes and most even shares need be found: share of their count. */
const roughly = 0.02;
const halfAChange = 0.5;
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
  const desk = new Desk(question, found, solver, effort);
  const stepByStep = greedyPlan(question, found);
  const unmet = await desk.unmetPins(stepByStep);
  const keepsPins = brokenBy(stepByStep, found).every((pin) => unmet.has(pin));
  const start = keepsPins ? stepByStep : planOf([]);
  const worth = await desk.solve({ of: 'worth', unmet }, start, shares.worth, effort.gap);
  const solved = worth.plan !== null && worth.plan.value > start.value ? worth.plan : start;
  // The plan before, mended, is where sparing people starts from, if it is worth about as much.
  const isReplan = question.before.length > 0;
  const leastWorth = solved.value * (1 - (isReplan ? sparingAgain : sparing)) - tolerance;
  const isMended = isReplan && keepsPins && stepByStep.value >= leastWorth;
  const from = isMended ? stepByStep : solved;
  const leastPosts = Math.min(solved.posts.length, from.posts.length);
  const aim = { of: 'people', unmet, leastWorth, leastPosts } as const;
  const peopleGap = isReplan ? halfAChange / question.before.length : roughly;
  const people = await desk.solve(aim, from, shares.people, Math.min(roughly, peopleGap));
  const sparingPlan = people.plan;
  const isAsGood =
    sparingPlan !== null &&
    sparingPlan.posts.length >= leastPosts &&
    sparingPlan.value >= leastWorth - tolerance &&
    brokenBy(sparingPlan, found).every((pin) => unmet.has(pin));
  const plan = isAsGood ? sparingPlan : from;
  const bound = Math.max(plan.value, Math.min(worth.bound, looseBound(question, found)));
  return {
    plan,
    bound,
    gap: bound <= plan.value ? 0 : (bound - plan.value) / Math.max(plan.value, tolerance),
    unmet: [
      ...explainPins(question, found, plan, unmet),
      ...explainShortage(question, found, plan),
    ],
    notices: noticesOf(question, found, plan),
    trouble: worth.trouble,
  };
}

interface Outcome {
  readonly plan: Plan | null;
  readonly bound: number;
  readonly broken: ReadonlySet<number>;
  readonly trouble: string | null;
}

/** One question on its way through the solver. */
class Desk {
  readonly #question: RosterQuestion;
  readonly #found: Openings;
  readonly #solver: Solver;
  readonly #effort: RosterEffort;

  constructor(question: RosterQuestion, found: Openings, solver: Solver, effort: RosterEffort) {
    this.#question = question;
    this.#found = found;
    this.#solver = solver;
    this.#effort = effort;
  }

  /** The pins that have to go so that as many as can be are kept. */
  async unmetPins(stepByStep: Plan): Promise<ReadonlySet<number>> {
    const broken = brokenBy(stepByStep, this.#found);
    if (broken.length === 0) return new Set();
    const { broken: least } = await this.solve({ of: 'pins' }, stepByStep, shares.pins, 0);
    return least.size < broken.length ? least : new Set(broken);
  }

  async solve(aim: Aim, start: Plan, share: number, gap: number): Promise<Outcome> {
    const program = rosterProgram(this.#question, this.#found, aim);
    const all = new Set(this.#found.pins.keys());
    if (program.program.columns.length === 0) {
      return { plan: planOf([]), bound: 0, broken: all, trouble: null };
    }
    const solved = await solveProgram(program.program, this.#solver, {
      time_s: this.#effort.time_s * share,
      gap,
      start:
        start.posts.length === 0 ? null : startFrom(start, this.#question, this.#found, program),
    });
    if (solved.state !== 'solved') {
      return { plan: null, bound: boundOf(solved), broken: all, trouble: troubleOf(solved) };
    }
    const { values, bound } = solved;
    const broken = program.broken.flatMap((column, pin) =>
      column === null || (values[column] ?? 0) > 0.5 ? [pin] : [],
    );
    const plan = readSolution(this.#question, program, values);
    return { plan, bound, broken: new Set(broken), trouble: null };
  }
}

function boundOf(solved: Exclude<Solved, { state: 'solved' }>): number {
  return solved.state === 'none found' ? solved.bound : Infinity;
}

function troubleOf(solved: Exclude<Solved, { state: 'solved' }>): string {
  const instead = 'This plan was made step by step instead.';
  switch (solved.state) {
    case 'none found':
      return `Time was up before a plan was found. ${instead} Allow more time, or plan fewer nights.`;
    case 'infeasible':
      return `The pins and rules do not go together. ${instead} Release some pins.`;
    case 'failed':
      return `The solver failed: ${solved.message} ${instead}`;
  }
}

/** The pins that a plan does not keep. */
function brokenBy({ posts }: Plan, { pins }: Openings): number[] {
  return pins.flatMap(({ pin, post }, index) => {
    const isKept = posts.some(
      (entry) =>
        entry.night === pin.night &&
        entry.watch === pin.watch &&
        entry.post === post &&
        (pin.sitter === null || entry.sitters.includes(pin.sitter)),
    );
    return isKept ? [] : [index];
  });
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
