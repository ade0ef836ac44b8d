import { answerInLanguage } from './in-language.ts';
import type { ToAnalyst } from './listen-messages.ts';

answerInLanguage<ToAnalyst>(async () => {
  const { ListenAnalyst } = await import('./listen-analyst.ts');
  const analyst = new ListenAnalyst((found) => {
    postMessage(found);
  });
  return (asked) => {
    analyst.take(asked);
  };
});
