import type { ForecastDesk } from '../workers/forecast-desk.ts';
import type { ForecastPort } from './forecaster-apart.ts';

/**
 * Works out the odds in the page's own thread, each after what was just tapped has been drawn. What
 * it takes is fetched with the first question: most browsers have a worker for it.
 */
export function forecasterHere(): ForecastPort {
  let desk: Promise<ForecastDesk> | null = null;
  let reply: Parameters<ForecastPort['listen']>[0] = () => undefined;
  let broken: Parameters<ForecastPort['listen']>[1] = () => undefined;
  let isOpen = true;
  return {
    send(asked) {
      desk ??= import('../workers/forecast-desk.ts').then((found) => new found.ForecastDesk());
      desk.then((found) => {
        setTimeout(() => {
          if (isOpen) reply(found.answer(asked));
        }, 0);
      }, broken);
    },
    listen(replied, failed) {
      reply = replied;
      broken = failed;
    },
    close() {
      isOpen = false;
    },
  };
}
