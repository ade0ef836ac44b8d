import type { SolveOptions, Solved, Solver } from '../../core/roster/solver.ts';
import type { SolverPort } from './solver-messages.ts';

/** A solver in a thread of its own, which can be given up. */
export interface WatchedSolver extends Solver {
  /** Ends the thread; what is being solved comes back as failed. */
  readonly close: () => void;
}

/** How long after its time a solver may still be at work before it is taken for lost. */
const grace = { share: 0.5, least_ms: 5_000 };

/**
 * A solver in a thread that is started when it is first asked, and watched: one that does not come back
 * in time (presolve of HiGHS 1.15.1 can run on for ever) is ended, and what it was asked is tried once
 * more in a new thread without presolve.
 */
export function watchedSolver(start: () => SolverPort): WatchedSolver {
  let port: SolverPort | null = null;
  let giveUp: (() => void) | null = null;
  let turn: Promise<unknown> = Promise.resolve();
  const end = (): void => {
    port?.close();
    port = null;
  };
  const ask = (lp: string, options: SolveOptions, careful: boolean): Promise<Answer> =>
    new Promise((resolve) => {
      const done = (answer: Answer): void => {
        clearTimeout(timer);
        giveUp = null;
        if (answer.kind !== 'solved') end();
        resolve(answer);
      };
      const wait_ms = options.time_s * 1000;
      const timer = setTimeout(
        () => {
          done({ kind: 'lost' });
        },
        wait_ms + Math.max(grace.least_ms, wait_ms * grace.share),
      );
      giveUp = () => {
        done({ kind: 'broken', message: 'it was stopped.' });
      };
      try {
        port ??= start();
        port.listen(
          (solved) => {
            done({ kind: 'solved', solved });
          },
          (message) => {
            done({ kind: 'broken', message });
          },
        );
        port.ask({ lp, options, careful });
      } catch (error) {
        const message = error instanceof Error ? error.message : String(error);
        done({ kind: 'broken', message });
      }
    });
  const solve = async (lp: string, options: SolveOptions): Promise<Solved> => {
    const from_ms = performance.now();
    const first = await ask(lp, options, false);
    const took_s = (): number => (performance.now() - from_ms) / 1000;
    const answer = first.kind === 'lost' ? await ask(lp, options, true) : first;
    switch (answer.kind) {
      case 'solved':
        return { ...answer.solved, took_s: took_s() };
      case 'broken':
        return { state: 'failed', message: answer.message, took_s: took_s() };
      case 'lost':
        return { state: 'failed', message: 'it did not come back in time.', took_s: took_s() };
    }
  };
  return {
    solve(lp, options) {
      const next = turn.then(() => solve(lp, options));
      turn = next;
      return next;
    },
    close() {
      giveUp?.();
      end();
    },
  };
}

type Answer =
  | { readonly kind: 'solved'; readonly solved: Solved }
  | { readonly kind: 'broken'; readonly message: string }
  | { readonly kind: 'lost' };
