import type { SolverPort, SolverReplied } from './solver-messages.ts';
import { type WatchedSolver, watchedSolver } from './watched-solver.ts';

/** The solver in a worker of the browser; nothing is loaded until it is asked for the first time. */
export function browserSolver(): WatchedSolver {
  return watchedSolver(startWorker);
}

function startWorker(): SolverPort {
  const worker = new Worker(new URL('./solver-worker.ts', import.meta.url), { type: 'module' });
  return {
    ask(asked) {
      worker.postMessage(asked);
    },
    listen(replied, broken) {
      worker.onmessage = ({ data }: MessageEvent<SolverReplied>) => {
        replied(data);
      };
      worker.onerror = (event) => {
        broken(event.message || 'the solver could not be loaded.');
      };
    },
    close() {
      worker.terminate();
    },
  };
}
