import { DayMeans, type Measured } from './day-means.ts';

/** The loggers of a beach brought together. */
export interface Loggers {
  /** The beach's sand on each day that any logger read. */
  readonly beach_c: Measured;
  /** How much warmer the sand of a logger's zone is than the beach's, degrees C. */
  readonly warmer_c: ReadonlyMap<string | null, number>;
}

/** Shared days that weigh as much as the belief that zones do not differ (guess). */
const DOUBT_DAYS = 3;
/** Loggers that miss different days settle in a few rounds. */
const ROUNDS = 12;

/**
 * Each reading is taken as the beach's sand that day + what is particular to the logger's zone,
 * fitted by turns over the days and the zones. Only days that loggers share tell zones apart, so a
 * logger that falls silent or is set out late does not bend the season.
 */
export function bringTogether(sand_c: ReadonlyMap<string | null, Measured>): Loggers {
  const warmer_c = new Map<string | null, number>([...sand_c.keys()].map((zone) => [zone, 0]));
  const shared = sharedDays(sand_c);
  let beach_c = beachMean(sand_c, warmer_c);
  for (let round = 0; round < ROUNDS && sand_c.size > 1; round++) {
    for (const [zone, readings] of sand_c) {
      let sum_c = 0;
      let days = 0;
      for (const [day, value_c] of readings) {
        if (!shared.has(day)) continue;
        sum_c += value_c - (beach_c.get(day) ?? value_c);
        days++;
      }
      warmer_c.set(zone, sum_c / (days + DOUBT_DAYS));
    }
    beach_c = beachMean(sand_c, warmer_c);
  }
  return { beach_c, warmer_c };
}

function sharedDays(sand_c: ReadonlyMap<string | null, Measured>): Set<number> {
  const seen = new Set<number>();
  const shared = new Set<number>();
  for (const readings of sand_c.values()) {
    for (const day of readings.keys()) (seen.has(day) ? shared : seen).add(day);
  }
  return shared;
}

function beachMean(
  sand_c: ReadonlyMap<string | null, Measured>,
  warmer_c: ReadonlyMap<string | null, number>,
): Measured {
  const means = new DayMeans();
  for (const [zone, readings] of sand_c) {
    const off_c = warmer_c.get(zone) ?? 0;
    for (const [day, value_c] of readings) means.add(day, value_c - off_c);
  }
  return means.means();
}
