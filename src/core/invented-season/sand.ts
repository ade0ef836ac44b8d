import type { Weather } from './weather.ts';

/** Daily mean temperature of undisturbed sand at nest depth, degrees C. */
export interface Sand {
  /** Throws outside the weather it came from. */
  on(day: number): number;
}

/** Days of memory of sand some 45 cm down: it follows the surface late and smoothed (invented). */
const MEMORY_DAYS = 4.5;
/** What full sun adds to the sand's daily mean over the air's, degrees C (invented). */
const SUN_C = 4.1;

/**
 * Sand of a zone that is `warmer_c` warmer than the coast's. It relaxes towards the air and the
 * sun; rain water that sinks in cools it at once, up to several degrees in extremes (extreme rain
 * cooled nests by 1.0-7.4 C, mean 3.6: Laloe et al. 2021 Ecol Evol 11:560-565).
 */
export function sandUnder(weather: Weather, warmer_c: number): Sand {
  const days: number[] = [];
  let sand_c = NaN;
  for (let day = weather.first; day <= weather.last; day++) {
    const { air_c, sun, rain_mm } = weather.on(day);
    const target_c = air_c + SUN_C * sun + warmer_c;
    sand_c = day === weather.first ? target_c : sand_c + (target_c - sand_c) / MEMORY_DAYS;
    sand_c -= 4.5 * (1 - Math.exp(-((rain_mm / 80) ** 1.3)));
    days.push(sand_c);
  }
  return {
    on(day) {
      const found = days[day - weather.first];
      if (found === undefined) throw new RangeError(`No sand was invented for day ${day}.`);
      return found;
    },
  };
}
