import { describe, expect, test } from 'vitest';
import { greedyPlan } from '../../../src/core/roster/greedy-plan.ts';
import { makeRoster } from '../../../src/core/roster/make-roster.ts';
import { openingsOf } from '../../../src/core/roster/openings.ts';
import { highsSolver } from '../../../src/edges/solver/highs.ts';
import { drawQuestion } from '../../builders/roster-question.ts';
import { bestByTrying, wrongsOf } from '../../reference/roster/brute-force.ts';

const solver = highsSolver();
const effort = { time_s: 20, gap: 0 };
/** Fairness may give up this share of the worth (`sparing` in make-roster.ts). */
const sparing = 0.005;

describe('the best plan', () => {
  test('is as good as the best of all plans tried one by one, and its bound is true', async () => {
    let worthwhile = 0;
    for (let seed = 1; seed <= 25; seed++) {
      const small = {
        seed,
        people: 5,
        posts: 2 + (seed % 2),
        nights: 2 + (seed % 2),
        zones: 1 + (seed % 2),
        offered: 0.7,
      };
      const question = drawQuestion(small);
      const best = bestByTrying(question);
      const { plan, bound } = await makeRoster(question, solver, effort);
      expect(wrongsOf(question, plan.posts), `seed ${seed}`).toEqual([]);
      expect(plan.value, `seed ${seed}`).toBeGreaterThanOrEqual(best * (1 - sparing) - 1e-6);
      expect(plan.value, `seed ${seed}`).toBeLessThanOrEqual(best + 1e-9);
      expect(bound, `seed ${seed}`).toBeGreaterThanOrEqual(best - 1e-6);
      expect(bound, `seed ${seed}`).toBeLessThanOrEqual(best + 1e-6);
      expect(greedyPlan(question, openingsOf(question)).value).toBeLessThanOrEqual(best + 1e-9);
      if (best > 0) worthwhile += 1;
    }
    expect(worthwhile).toBeGreaterThan(18);
  });
});
