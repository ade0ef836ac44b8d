import { restOfNight } from '../../core/forecast/rest-of-night.ts';
import { ForecastMemory } from '../../core/forecast/season-memory.ts';
import { forecastSeason } from '../../core/forecast/tonight.ts';
import { whyTonight } from '../../core/forecast/why.ts';
import type { Forecaster } from '../state/forecaster.ts';

/** Works out the odds in the page's own thread, after what was just tapped has been drawn. */
export function forecasterHere(): Forecaster {
  const memory = new ForecastMemory();
  return {
    async forecast(record, moment) {
      await drawn();
      return forecastSeason(record, moment, memory);
    },
    async why(record, moment, nest) {
      await drawn();
      return whyTonight(record, moment, nest, memory);
    },
    async restOfNight(record, moment, nest) {
      await drawn();
      return restOfNight(record, moment, nest, memory);
    },
  };
}

function drawn(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, 0);
  });
}
