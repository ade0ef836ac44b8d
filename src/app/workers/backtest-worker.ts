import type { ReplayAsked, ReplayTold } from './backtest-messages.ts';
import { replaySeason } from './backtest-replay.ts';

const tell = (word: ReplayTold): void => {
  postMessage(word);
};

addEventListener('message', ({ data }: MessageEvent<ReplayAsked>) => {
  try {
    tell({ kind: 'done', backtest: replaySeason(data, tell) });
  } catch (error) {
    tell({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
