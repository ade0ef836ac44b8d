import { ForecastDesk } from './forecast-desk.ts';
import type { Asked } from './forecast-messages.ts';

const desk = new ForecastDesk();

addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  postMessage(desk.answer(data));
});
