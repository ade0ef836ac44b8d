import { normalCdf } from '../numerics/normal.ts';
import { DailyValues } from './daily-values.ts';
import type { Measured } from './day-means.ts';
import { normalOn, type SeasonalNormal, yearly_rad } from './seasonal-normal.ts';

/** Depth to the middle of a clutch; common practice puts eggs 30-80 cm down, no source. */
const NEST_DEPTH_M = 0.45;
/**
 * 0.4 mm2/s; sand has 0.3-0.8 (textbook of soil physics, from memory). Weather then lags by 3-4
 * days.
 */
const DIFFUSIVITY_M2_DAY = 0.4e-6 * 86_400;
/** Days of air that the sand at nest depth remembers; what is older is in the seasonal normal. */
const REMEMBERED_DAYS = 60;

/** What the mean of sand at nest depth is over the mean of the air when no rain falls (guess). */
const SAND_OVER_AIR_C = 2.5;
/**
 * Rain that soaks in cools a nest: extreme rain by 3.6 C in the mean (1.0-7.4, 79 nests, Laloe et
 * al. 2021 Ecol Evol 11:560-565). Sand that holds a tenth of its volume keeps a shower of 15 mm in
 * its top 15 cm, from where it dries. These amounts, and how fast the cooling is made up for, are
 * guesses.
 */
const RAIN = { most_c: 3.6, keptAbove_mm: 15, scale_mm: 60, recovery_days: 5 };

/**
 * Depth at which a wave of temperature with this period has shrunk to 1/e of the surface's:
 * d = sqrt(2 alpha / omega), the periodic solution of heat conduction (textbook formula).
 */
export function dampingDepth_m(period_days: number): number {
  return Math.sqrt((2 * DIFFUSIVITY_M2_DAY * period_days) / (2 * Math.PI));
}

/** The year's wave at nest depth: smaller by exp(-z/d) and later by z/d radians. */
export function normalAtDepth({ level_c, cosine_c, sine_c }: SeasonalNormal): SeasonalNormal {
  const depths = NEST_DEPTH_M / dampingDepth_m((2 * Math.PI) / yearly_rad);
  const [along, across] = [Math.cos(depths), Math.sin(depths)];
  const share = Math.exp(-depths);
  return {
    level_c,
    cosine_c: share * (cosine_c * along - sine_c * across),
    sine_c: share * (cosine_c * across + sine_c * along),
  };
}

/**
 * What a degree on the surface, on one day, adds to the day's mean at nest depth 0, 1, 2 .. days
 * later. The response of a half-space to a step is erfc(z / (2 sqrt(alpha t))) (Carslaw & Jaeger,
 * "Conduction of Heat in Solids", from memory); means of days at both ends make it a second
 * difference of that function's integral.
 */
export function depthWeights(days: number): Float64Array {
  return Float64Array.from(
    { length: days },
    (_, lag) => risen_days(lag + 1) - 2 * risen_days(lag) + risen_days(lag - 1),
  );
}

/** Integral of the step response from 0 to `t_days`. */
function risen_days(t_days: number): number {
  if (t_days <= 0) return 0;
  const x = NEST_DEPTH_M / (2 * Math.sqrt(DIFFUSIVITY_M2_DAY * t_days));
  const erfc = 2 * normalCdf(-x * Math.SQRT2);
  return t_days * ((1 + 2 * x * x) * erfc - (2 * x * Math.exp(-x * x)) / Math.sqrt(Math.PI));
}

const weights = depthWeights(REMEMBERED_DAYS);

/**
 * Daily sand temperature at nest depth guessed from the air (without gaps), its seasonal normal and
 * the rain, over the same days. Days without a rain gauge reading are taken to have rained like
 * the others. How much warmer this beach's sand is than its air is a guess: a logger
 * corrects it, and so does the season's own effect once nests have come up.
 */
export function sandFromAir(
  air_c: DailyValues,
  airNormal: SeasonalNormal,
  rain_mm: Measured,
): DailyValues {
  const below = normalAtDepth(airNormal);
  const usualDrop_c = meanDrop_c(rain_mm);
  let cooled_c = usualDrop_c / -Math.expm1(-1 / RAIN.recovery_days);
  const { first, last } = air_c;
  const unusual = new DailyValues(first, last, (day) => air_c.at(day) - normalOn(airNormal, day));
  return new DailyValues(first, last, (day) => {
    const mm = rain_mm.get(day);
    const drop_c = mm === undefined ? usualDrop_c : rainDrop_c(mm);
    cooled_c = cooled_c * Math.exp(-1 / RAIN.recovery_days) + drop_c;
    let over_c = 0;
    weights.forEach((weight, lag) => {
      over_c += weight * unusual.at(Math.max(first, day - lag));
    });
    return normalOn(below, day) + over_c + SAND_OVER_AIR_C - cooled_c;
  });
}

/** By how much a day's rain cools the sand at nest depth at once. */
function rainDrop_c(mm: number): number {
  return RAIN.most_c * -Math.expm1(-Math.max(0, mm - RAIN.keptAbove_mm) / RAIN.scale_mm);
}

function meanDrop_c(rain_mm: Measured): number {
  let sum_c = 0;
  for (const mm of rain_mm.values()) sum_c += rainDrop_c(mm);
  return rain_mm.size === 0 ? 0 : sum_c / rain_mm.size;
}
