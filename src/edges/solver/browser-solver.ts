import type { SolverPort, SolverReplied } from './solver-messages.ts';
import workerAddress from './solver-worker.ts?worker&url';
import { type WatchedSolver, watchedSolver } from './watched-solver.ts';

/**
 * The solver in a worker of the browser; nothing is loaded until it is asked for the first time.
 * `ownScript` makes of the worker's address what the browser's guard over scripts takes.
 */
export function browserSolver(ownScript: (address: string) => string): WatchedSolver {
  return watchedSolver(() => startWorker(ownScript(workerAddress)));
}

function startWorker(address: string): SolverPort {
  const worker = new Worker(address, { type: 'module' });
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
