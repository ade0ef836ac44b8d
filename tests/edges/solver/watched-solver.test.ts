import { describe, expect, test } from 'vitest';
import type { Solved } from '../../../src/core/roster/solver.ts';
import type { SolverAsked, SolverPort } from '../../../src/edges/solver/solver-messages.ts';
import { watchedSolver } from '../../../src/edges/solver/watched-solver.ts';

const solved: Solved = {
  state: 'solved',
  values: [1],
  objective: 1,
  bound: 1,
  took_s: 0,
};
const { took_s: _, ...answer } = solved;
/** No time for the solver, so that the grace is all there is. */
const options = { time_s: -4.99, gap: 0, start: null };

/** Threads that answer, or do not, as the test says; and what became of them. */
class Threads {
  started = 0;
  closed = 0;
  readonly asked: SolverAsked[] = [];
  readonly #answer: (asked: SolverAsked) => Solved | 'nothing' | 'breaks';

  constructor(answer: (asked: SolverAsked) => Solved | 'nothing' | 'breaks') {
    this.#answer = answer;
  }

  start = (): SolverPort => {
    this.started += 1;
    let told: { replied: (reply: Solved) => void; broken: (message: string) => void } | null = null;
    return {
      listen: (replied, broken) => {
        told = { replied, broken };
      },
      ask: (asked) => {
        this.asked.push(asked);
        const answer = this.#answer(asked);
        if (answer === 'breaks') told?.broken('it broke.');
        else if (answer !== 'nothing') told?.replied(answer);
      },
      close: () => {
        this.closed += 1;
      },
    };
  };
}

describe('a solver that is watched', () => {
  test('is started once and asked again and again', async () => {
    const threads = new Threads(() => solved);
    const solver = watchedSolver(threads.start);
    expect([await solver.solve('a', options), await solver.solve('b', options)]).toMatchObject([
      answer,
      answer,
    ]);
    expect(threads).toMatchObject({ started: 1, closed: 0 });
  });

  test('that does not come back is ended, and tried once more with care', async () => {
    const threads = new Threads(({ careful }) => (careful ? solved : 'nothing'));
    expect(await watchedSolver(threads.start).solve('a', options)).toMatchObject(answer);
    expect(threads).toMatchObject({ started: 2, closed: 1 });
    expect(threads.asked.map(({ careful }) => careful)).toEqual([false, true]);
  });

  test('that never comes back fails in words, and a broken one likewise', async () => {
    const lost = watchedSolver(new Threads(() => 'nothing').start);
    expect(await lost.solve('a', options)).toMatchObject({
      state: 'failed',
      message: 'it did not come back in time.',
    });
    const broken = watchedSolver(new Threads(() => 'breaks').start);
    expect(await broken.solve('a', options)).toMatchObject({
      state: 'failed',
      message: 'it broke.',
    });
  });

  test('that is closed gives up what it is at', async () => {
    const solver = watchedSolver(new Threads(() => 'nothing').start);
    const asked = solver.solve('a', { ...options, time_s: 60 });
    await Promise.resolve();
    solver.close();
    expect(await asked).toMatchObject({ state: 'failed', message: 'it was stopped.' });
  });
});
