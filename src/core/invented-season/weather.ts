import { type Random, randomStream } from '../numerics/random.ts';

export type WeatherKind = 'ordinary' | 'hot-dry' | 'cold-wet' | 'stormy';

/** One date of weather and the night that follows it. */
export interface WeatherDay {
  readonly air_c: number;
  /** How much cooler (-) or warmer (+) than usual for the date. */
  readonly anomaly_c: number;
  /** Share of a clear day's sun. */
  readonly sun: number;
  readonly rain_mm: number;
  /** Whether the rain falls in the late afternoon or the night (else by morning and noon). */
  readonly lateRain: boolean;
  readonly evening_ms: number;
  /** Wind at the dawn that ends the night, metres a second. */
  readonly dawn_ms: number;
  /** Metres that a storm adds to the sea's reach; 0 without one. */
  readonly surge_m: number;
}

export interface Weather {
  readonly first: number;
  readonly last: number;
  /** Throws outside `first..last`. */
  on(day: number): WeatherDay;
}

interface Climate {
  readonly warmer_c: number;
  readonly wetter: number;
  readonly storms: number;
}

/** What each kind of season changes. Invented. */
const CLIMATES: Record<WeatherKind, Climate> = {
  ordinary: { warmer_c: 0, wetter: 1, storms: 0.6 },
  'hot-dry': { warmer_c: 1, wetter: 0.45, storms: 0.3 },
  'cold-wet': { warmer_c: -0.8, wetter: 1.6, storms: 0.8 },
  stormy: { warmer_c: -0.1, wetter: 1.2, storms: 4.5 },
};

/**
 * Daily weather from `first` to `last` (days since 1970-01-01): a seasonal wave, a season of its own
 * temper, day-to-day memory, cool fronts, wet and dry spells, a few storms. A sketch of a warm
 * coast near 27 N, every number invented. `yearStart` = the day of 1 January.
 */
export function inventWeather(
  seed: number,
  kind: WeatherKind,
  yearStart: number,
  first: number,
  last: number,
): Weather {
  const random = randomStream(seed, 'weather', kind);
  const climate = CLIMATES[kind];
  const storms = inventStorms(random, climate, yearStart);
  const temper_c = random.normal(climate.warmer_c, 0.4);
  const days: WeatherDay[] = [];
  let drift_c = 0;
  let front_c = 0;
  let wet = false;
  let gust = 0;
  for (let day = first; day <= last; day++) {
    const summer = Math.cos((2 * Math.PI * (day - yearStart - 214)) / 365); // warmest early in August
    const storm = storms.find(({ from, nights }) => day >= from && day < from + nights);
    drift_c = 0.75 * drift_c + random.normal(0, 0.55);
    front_c *= 0.65;
    if (random.chance(0.05 - 0.03 * summer)) front_c -= random.gamma(2, 4);
    wet = random.chance((wet ? 0.55 : 0.2) * climate.wetter ** 0.7) || storm !== undefined;
    const shower_mm = wet ? random.gamma(9 * climate.wetter ** 0.5, 0.8) : 0;
    const rain_mm = shower_mm + (storm === undefined ? 0 : random.gamma(55, 3));
    const cloud = wet ? random.between(0.35, 0.9) : random.between(0, 0.35);
    gust = 0.6 * gust + random.normal(0, 0.35);
    const calm_ms =
      3.6 * Math.exp(gust) + (storm === undefined ? 0 : 10) - 1.5 * Math.min(0, front_c);
    const anomaly_c = temper_c + drift_c + front_c - 0.9 * cloud;
    days.push({
      air_c: 24.9 + 3.1 * summer + anomaly_c,
      anomaly_c,
      sun: 1 - 0.75 * cloud,
      rain_mm,
      lateRain: random.chance(0.6),
      evening_ms: calm_ms * random.between(0.8, 1.3),
      dawn_ms: calm_ms * random.between(0.5, 1),
      surge_m: storm === undefined ? 0 : storm.surge_m * random.between(0.6, 1),
    });
  }
  return {
    first,
    last,
    on(day) {
      const found = days[day - first];
      if (found === undefined) throw new RangeError(`No weather was invented for day ${day}.`);
      return found;
    },
  };
}

interface Storm {
  readonly from: number;
  readonly nights: number;
  readonly surge_m: number;
}

/** Storms come mostly in August and September, last one to three nights, and lift the sea. */
function inventStorms(random: Random, climate: Climate, yearStart: number): Storm[] {
  return Array.from({ length: random.poisson(climate.storms) }, () => ({
    from: yearStart + Math.round(Math.min(330, Math.max(150, random.normal(232, 28)))),
    nights: 1 + random.below(3),
    surge_m: 0.3 + random.gamma(0.75, 2.5),
  }));
}
