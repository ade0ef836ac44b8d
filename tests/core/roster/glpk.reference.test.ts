import loadGlpk from 'glpk.js/node';
import { describe, expect, test } from 'vitest';
import type { LinearProgram } from '../../../src/core/roster/linear-program.ts';
import { openingsOf } from '../../../src/core/roster/openings.ts';
import { rosterProgram } from '../../../src/core/roster/roster-program.ts';
import { writeLp } from '../../../src/core/roster/write-lp.ts';
import { highsSolver } from '../../../src/edges/solver/highs.ts';
import { drawQuestion } from '../../builders/roster-question.ts';

// Truth: GLPK (another solver, by other people) on the program itself, without the LP text between.
const glpk = await loadGlpk();

function bestByGlpk({ columns, rows }: LinearProgram): number {
  const bounds = { '<=': glpk.GLP_UP, '>=': glpk.GLP_LO, '=': glpk.GLP_FX };
  const { result } = glpk.solve(
    {
      name: 'roster',
      objective: {
        direction: glpk.GLP_MAX,
        name: 'obj',
        vars: columns.map(({ name, gain }) => ({ name, coef: gain })),
      },
      subjectTo: rows.map(({ name, terms, sense, right }) => ({
        name,
        vars: terms.map(([column, coef]) => ({ name: columns[column]!.name, coef })),
        bnds: { type: bounds[sense], lb: right, ub: right },
      })),
      bounds: columns.map(({ name, lower, upper }) => ({
        name,
        type: upper === Infinity ? glpk.GLP_LO : lower === upper ? glpk.GLP_FX : glpk.GLP_DB,
        lb: lower,
        ub: upper === Infinity ? 0 : upper,
      })),
      generals: columns.filter(({ isWhole }) => isWhole).map(({ name }) => name),
    },
    { msglev: glpk.GLP_MSG_OFF, presol: true, mipgap: 0, tmlim: 20 },
  );
  expect(result.status).toBe(glpk.GLP_OPT);
  return result.z;
}

describe('the best of a middling program', () => {
  test('is the same for two solvers that share nothing', async () => {
    const solver = highsSolver();
    for (const seed of [11, 12, 13]) {
      const asked = drawQuestion({ seed, people: 10, posts: 5, nights: 3, zones: 2, offered: 0.5 });
      const { program } = rosterProgram(asked, openingsOf(asked), {
        of: 'worth',
        unmet: new Set(),
      });
      const best = bestByGlpk(program);
      const ours = await solver.solve(writeLp(program), { time_s: 20, gap: 0, start: null });
      if (ours.state !== 'solved') throw new Error(ours.state);
      // Both work to 1e-7 or so in each row.
      expect(Math.abs(ours.objective - best)).toBeLessThan(1e-6);
      expect(ours.bound).toBeGreaterThan(best - 1e-6);
      expect(best).toBeGreaterThan(0.3);
    }
  });
});
