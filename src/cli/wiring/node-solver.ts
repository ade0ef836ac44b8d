import { fork } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { SolverPort, SolverReplied } from '../../edges/solver/solver-messages.ts';
import { type WatchedSolver, watchedSolver } from '../../edges/solver/watched-solver.ts';

/** The solver in a process of its own, started when it is first asked; `close` lets the program end. */
export function nodeSolver(): WatchedSolver {
  return watchedSolver(startProcess);
}

function startProcess(): SolverPort {
  // It reads TypeScript as the program itself does; a thread of Node 20 cannot be taught that.
  const reader = pathToFileURL(createRequire(import.meta.url).resolve('tsx')).href;
  const child = fork(fileURLToPath(new URL('./solver-process.ts', import.meta.url)), {
    execArgv: ['--import', reader],
    serialization: 'advanced',
  });
  return {
    ask(asked) {
      child.send(asked);
    },
    listen(replied, broken) {
      child.removeAllListeners();
      child.on('message', (reply) => {
        replied(reply as SolverReplied);
      });
      child.on('error', (error) => {
        broken(error.message);
      });
      child.on('exit', () => {
        broken('its process ended.');
      });
    },
    close() {
      child.removeAllListeners();
      child.kill('SIGKILL');
    },
  };
}
