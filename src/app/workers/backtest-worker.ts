import type { ReplayAsked, ReplayTold } from './backtest-messages.ts';
import { answerInLanguage } from './in-language.ts';

const tell = (word: ReplayTold): void => {
  postMessage(word);
};

answerInLanguage<ReplayAsked>(async () => {
  const { replaySeason } = await import('./backtest-replay.ts');
  return (asked) => {
    try {
      tell({ kind: 'done', backtest: replaySeason(asked, tell) });
    } catch (error) {
      tell({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
    }
  };
});
