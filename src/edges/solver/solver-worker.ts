import wasmUrl from 'highs/runtime?url';
import { highsSolver } from './highs.ts';
import type { SolverAsked } from './solver-messages.ts';

// The thread of the app in which rosters are solved; it is ended from outside when it is lost.
const quick = highsSolver({ wasmUrl });
const careful = highsSolver({ wasmUrl, careful: true });

addEventListener('message', ({ data }: MessageEvent<SolverAsked>) => {
  const solver = data.careful ? careful : quick;
  void solver.solve(data.lp, data.options).then((solved) => {
    postMessage(solved);
  });
});
