import type { Asked } from './forecast-messages.ts';
import { answerInLanguage } from './in-language.ts';

answerInLanguage<Asked>(async () => {
  const desk = new (await import('./forecast-desk.ts')).ForecastDesk();
  return (asked) => {
    postMessage(desk.answer(asked));
  };
});
