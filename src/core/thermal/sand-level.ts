import { DailyValues } from './daily-values.ts';
import type { Readings } from './daily-weather.ts';
import type { Measured } from './day-means.ts';
import { fillGaps } from './fill-gaps.ts';
import { sandFromAir } from './sand-from-air.ts';
import {
  type ExpectedYear,
  fitSeasonalNormal,
  normalOn,
  type SeasonalNormal,
  yearly_rad,
} from './seasonal-normal.ts';

/**
 * Sand over the four warmest months on a beach of which nothing else is known, and how far beaches
 * and years stray from it (SD). Derived: sand in which the species of `development.ts` take their
 * median incubations, clutch heat included; 0.07 of log duration over 0.085 a degree.
 */
const NESTING_SAND = { mean_c: 29.4, sd_c: 0.8 };
/** How far sand may be from what its air says, where no logger has told (SD, guess). */
const AIR_SD_C = 1;
/** Days shared by loggers and air that weigh as much as what is believed without them (guess). */
const DOUBT_DAYS = 3;

/**
 * Sand guessed from air and rain, on the days `from`..`to` whose air was measured. Its course comes
 * from the air; how warm it is on the whole from the loggers where they share days with the air,
 * and else from the air's level and from what nesting sand is like in general, each by how sure it
 * is.
 */
export function sandOnAirDays(
  { air_c, rain_mm }: Readings,
  beach_c: Measured,
  from: number,
  to: number,
  year: ExpectedYear,
): Measured {
  if (air_c.size === 0) return air_c;
  const airNormal = fitSeasonalNormal(air_c, year);
  const usual = new DailyValues(from, to, (day) => normalOn(airNormal, day));
  const sand_c = sandFromAir(fillGaps(usual, air_c), airNormal, rain_mm);
  const guess = new Map([...air_c.keys()].map((day) => [day, sand_c.at(day)]));

  const warmMonths_c = warmestMonths_c(fitSeasonalNormal(guess, year));
  const believed_c =
    (NESTING_SAND.mean_c - warmMonths_c) / (1 + NESTING_SAND.sd_c ** 2 / AIR_SD_C ** 2);
  let sum_c = DOUBT_DAYS * believed_c;
  let days = DOUBT_DAYS;
  for (const [day, guess_c] of guess) {
    const read_c = beach_c.get(day);
    if (read_c === undefined) continue;
    sum_c += read_c - guess_c;
    days++;
  }
  return new Map([...guess].map(([day, guess_c]) => [day, guess_c + sum_c / days]));
}

/** Mean of a seasonal normal over the 60 days on either side of its warmest. */
function warmestMonths_c({ level_c, cosine_c, sine_c }: SeasonalNormal): number {
  const half_rad = 60 * yearly_rad;
  return level_c + (Math.hypot(cosine_c, sine_c) * Math.sin(half_rad)) / half_rad;
}
