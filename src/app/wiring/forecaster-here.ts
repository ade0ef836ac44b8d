import { ForecastDesk } from '../workers/forecast-desk.ts';
import type { ForecastPort } from './forecaster-apart.ts';

/** Works out the odds in the page's own thread, each after what was just tapped has been drawn. */
export function forecasterHere(): ForecastPort {
  const desk = new ForecastDesk();
  let reply: Parameters<ForecastPort['listen']>[0] = () => undefined;
  let isOpen = true;
  return {
    send(asked) {
      setTimeout(() => {
        if (isOpen) reply(desk.answer(asked));
      }, 0);
    },
    listen(replied) {
      reply = replied;
    },
    close() {
      isOpen = false;
    },
  };
}
