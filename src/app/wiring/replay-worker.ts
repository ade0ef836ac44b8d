import type { StartReplay } from '../state/odds-replay.svelte.ts';
import type { ReplayTold } from '../workers/backtest-messages.ts';
import workerAddress from '../workers/backtest-worker.ts?worker&url';
import { ownWorker } from './own-script.ts';

/** Replays in a worker of its own, which is thrown away when it is done or stopped. */
export const replayInWorker: StartReplay = (asked, told) => {
  const worker = ownWorker(workerAddress);
  const broken = (): void => {
    told({
      kind: 'failed',
      message:
        'The replay could not be run in this browser. Run `firstdark backtest` on a computer.',
    });
  };
  worker.addEventListener('message', ({ data }: MessageEvent<ReplayTold>) => {
    told(data);
  });
  worker.addEventListener('error', broken);
  worker.addEventListener('messageerror', broken);
  worker.postMessage(asked);
  return () => {
    worker.terminate();
  };
};
