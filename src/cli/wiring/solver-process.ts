import { highsSolver } from '../../edges/solver/highs.ts';
import type { SolverAsked } from '../../edges/solver/solver-messages.ts';

// The process in which rosters are solved for the terminal; it is ended from outside when it is lost.
const quick = highsSolver();
const careful = highsSolver({ careful: true });

process.on('message', ({ lp, options, careful: isCareful }: SolverAsked) => {
  void (isCareful ? careful : quick).solve(lp, options).then((solved) => {
    process.send?.(solved);
  });
});
