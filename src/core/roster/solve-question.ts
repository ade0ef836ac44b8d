import { brokenPins } from './broken-pins.ts';
import { greedyPlan } from './greedy-plan.ts';
import { holdPosts } from './hold-posts.ts';
import type { Openings } from './openings.ts';
import { type Plan, planOf } from './plan.ts';
import { readSolution } from './read-solution.ts';
import { type Aim, rosterProgram } from './roster-program.ts';
import type { RosterQuestion } from './roster-question.ts';
import { freeChoices, large, solveProgram } from './solve-program.ts';
import type { Solved, Solver } from './solver.ts';
import { startFrom } from './start-from.ts';

export interface RosterEffort {
  /** Seconds of the solver for all of it. */
  readonly time_s: number;
  /** Within this share of the bound a plan is good enough. */
  readonly gap: number;
}

export interface SolvedQuestion {
  readonly plan: Plan;
  readonly bound: number;
  /** Why the plan is only one made step by step, in words; null when it was solved for. */
  readonly trouble: string | null;
  /** Seconds of the solver. */
  readonly took_s: number;
}

/** Of the time that is left, the most that keeping pins, then the worth of the plan may take. */
const shares = { pins: 0.2, worth: 0.75 };
/** Of its worth a plan may give up this share to spare people (guess); no post is given up. */
const sparing = 0.005;
const sparingAgain = 0.02;
/** How near the fewest changes and most even shares need be found: share of their count. */
const roughly = 0.02;
const halfAChange = 0.5;
/** Rounding of the solver that is not taken for a difference. */
const tolerance = 1e-6;

/** The best plan in the time: pins first, then worth, then few changes and even shares. */
export async function solveQuestion(
  question: RosterQuestion,
  found: Openings,
  solver: Solver,
  effort: RosterEffort,
): Promise<SolvedQuestion> {
  const desk = new Desk(question, found, solver, effort.time_s);
  const stepByStep = greedyPlan(question, found);
  const unmet = await desk.unmetPins(stepByStep);
  const keepsPins = brokenPins(stepByStep, found).every((pin) => unmet.has(pin));
  const start = keepsPins ? stepByStep : planOf([]);
  const worth = await desk.solve({ of: 'worth', unmet }, start, shares.worth, effort.gap);
  const solved = worth.plan !== null && worth.plan.value > start.value ? worth.plan : start;
  // The plan before, mended, is where sparing people starts from, if it is worth about as much.
  const isReplan = question.before.length > 0;
  const leastShare = 1 - (isReplan ? sparingAgain : sparing);
  const leastWorth = Math.max(solved.value * leastShare, start.value) - tolerance;
  const isMended = isReplan && keepsPins && stepByStep.value >= leastWorth;
  const from = isMended ? stepByStep : solved;
  const leastPosts = Math.min(solved.posts.length, from.posts.length);
  const aim = { of: 'people', unmet, leastWorth, leastPosts } as const;
  const peopleGap = isReplan ? halfAChange / question.before.length : roughly;
  const people = await desk.solve(aim, from, 1, Math.min(roughly, peopleGap));
  const sparingPlan = people.plan;
  const isAsGood =
    sparingPlan !== null &&
    sparingPlan.posts.length >= leastPosts &&
    sparingPlan.value >= leastWorth - tolerance &&
    brokenPins(sparingPlan, found).every((pin) => unmet.has(pin));
  const plan = isAsGood ? sparingPlan : from;
  return {
    plan,
    bound: Math.max(plan.value, worth.bound),
    trouble: worth.trouble,
    took_s: desk.took_s,
  };
}

interface Outcome {
  readonly plan: Plan | null;
  readonly bound: number;
  readonly broken: ReadonlySet<number>;
  readonly trouble: string | null;
}

/** One question on its way through the solver, and the time there is for it. */
class Desk {
  readonly #question: RosterQuestion;
  readonly #found: Openings;
  readonly #solver: Solver;
  #left_s: number;
  #took_s = 0;

  constructor(question: RosterQuestion, found: Openings, solver: Solver, time_s: number) {
    this.#question = question;
    this.#found = found;
    this.#solver = solver;
    this.#left_s = time_s;
  }

  get took_s(): number {
    return this.#took_s;
  }

  /** The pins that have to go so that as many as can be are kept. */
  async unmetPins(stepByStep: Plan): Promise<ReadonlySet<number>> {
    const broken = brokenPins(stepByStep, this.#found);
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
    const from =
      start.posts.length === 0 ? null : startFrom(start, this.#question, this.#found, program);
    const isHeld = aim.of === 'people' && freeChoices(program.program) >= large;
    const asked = isHeld && from !== null ? holdPosts(program, from) : program.program;
    const solved = await solveProgram(asked, this.#solver, {
      time_s: this.#left_s * share,
      gap,
      start: from,
    });
    this.#took_s += solved.took_s;
    this.#left_s = Math.max(0, this.#left_s - solved.took_s);
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
