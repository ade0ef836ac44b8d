import type { Night } from '../domain/night.ts';
import type { Species } from '../domain/species.ts';
import { developmentDays, developmentLine } from './development.ts';
import { metabolicHeat_c } from './metabolic-heat.ts';
import { spread_nights55, type SourceShares } from './spread.ts';
import type { DaySource, TemperatureSeries } from './temperature-series.ts';

/** When the temperature says that a nest is due, and how well it knows. */
export interface CentralDuration {
  /** Nights from laying to the boil, in parts of a night. */
  readonly nights: number;
  /** Spread of real nests around it, in days at 55 days (the heavy tail comes on top). */
  readonly spread_nights55: number;
  /** What most of its measured days rest on; none when no day of it has been measured. */
  readonly basis: DaySource;
  /** d log(nights) / dT: what one degree more throughout would do; negative. */
  readonly logPerDegree: number;
  /** Mean sand temperature over the incubation, without the clutch's own heat. */
  readonly mean_c: number;
}

/** Half the step of the numerical derivative, degrees C. */
const HALF_STEP_C = 0.25;

/**
 * The central duration of a nest laid on a night (taken at midnight: its first whole day is the
 * next date). The clutch's own heat is added to the sand, for no logger here lies in a clutch.
 */
export function centralDuration(
  species: Species | null,
  layNight: Night,
  sand: TemperatureSeries,
): CentralDuration {
  const line = developmentLine(species);
  const nightsIf = (warmer_c: number): number =>
    developmentDays(line, (day) => sand.at(layNight + day) + warmer_c, metabolicHeat_c) +
    line.toBoil_nights;
  const nights = nightsIf(0);
  const days = Math.ceil(nights - line.toBoil_nights);
  const counts = { beside: 0, beach: 0, air: 0, none: 0 };
  let sum_c = 0;
  for (let day = 1; day <= days; day++) {
    counts[sand.sourceOn(layNight + day)]++;
    sum_c += sand.at(layNight + day);
  }
  const shares: SourceShares = {
    beside: counts.beside / days,
    beach: counts.beach / days,
    air: counts.air / days,
    none: counts.none / days,
  };
  return {
    nights,
    spread_nights55: spread_nights55(species, shares),
    basis: mostMeasured(shares),
    logPerDegree: Math.log(nightsIf(HALF_STEP_C) / nightsIf(-HALF_STEP_C)) / (2 * HALF_STEP_C),
    mean_c: sum_c / days,
  };
}

function mostMeasured({ beside, beach, air }: SourceShares): DaySource {
  const most = Math.max(beside, beach, air);
  if (most === 0) return 'none';
  if (beside === most) return 'beside';
  return beach === most ? 'beach' : 'air';
}
