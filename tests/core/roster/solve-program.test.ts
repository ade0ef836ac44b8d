import { describe, expect, test } from 'vitest';
import { openingsOf } from '../../../src/core/roster/openings.ts';
import { rosterProgram } from '../../../src/core/roster/roster-program.ts';
import { solveProgram } from '../../../src/core/roster/solve-program.ts';
import type { Solved, Solver } from '../../../src/core/roster/solver.ts';
import { highsSolver } from '../../../src/edges/solver/highs.ts';
import { drawQuestion } from '../../builders/roster-question.ts';

const options = { time_s: 20, gap: 0, start: null };

function program(seed: number) {
  const drawn = { seed, people: 16, posts: 6, nights: 4, zones: 2, offered: 0.5 };
  const question = drawQuestion(drawn);
  return rosterProgram(question, openingsOf(question), { of: 'worth', unmet: new Set() }).program;
}

function solvedOf(solved: Solved): Extract<Solved, { state: 'solved' }> {
  if (solved.state !== 'solved') throw new Error(solved.state);
  return solved;
}

describe('a program too large to be solved as a whole', () => {
  test('is solved in two steps, close to the best, with a bound that is true', async () => {
    const solver = highsSolver();
    for (const seed of [41, 42, 43, 44]) {
      const best = solvedOf(await solveProgram(program(seed), solver, options)).objective;
      const two = solvedOf(await solveProgram(program(seed), solver, options, 0));
      expect(two.bound).toBeGreaterThanOrEqual(best - 1e-6);
      expect(two.objective).toBeLessThanOrEqual(best + 1e-6);
      // What has no part in the first step is left out; that this loses little is found, not proven.
      expect(two.objective).toBeGreaterThan(best * 0.97);
    }
  });

  test('is solved as a whole after all when the first step finds nothing in its time', async () => {
    const asked: { whole: boolean; time_s: number }[] = [];
    const slow: Solver = {
      solve: (lp, { time_s }) => {
        const whole = /^General$/m.test(lp);
        asked.push({ whole, time_s });
        return Promise.resolve({ state: 'none found', bound: Infinity, took_s: time_s });
      },
    };
    const found = await solveProgram(program(41), slow, options, 0);
    expect(asked.map(({ whole }) => whole)).toEqual([false, true]);
    expect(asked.reduce((sum, { time_s }) => sum + time_s, 0)).toBeCloseTo(options.time_s, 9);
    expect(found).toMatchObject({ state: 'none found', took_s: options.time_s });
  });
});
