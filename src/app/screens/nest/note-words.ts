import type { VisitDetails } from '../../../core/domain/visit.ts';
import {
  emergenceWord,
  instrumentWord,
  rainWord,
  wayWord,
  windWord,
} from '../../../core/domain/code-words.ts';

/** What a note says besides its main words: weather, instrument, meter readings, remark. */
export function besidesOf(details: VisitDetails): string {
  const { instrument, wind, rain, scratch_per_min, active_share, level_db, note } = details;
  const { emergence, counting, reached_water, astray, taken, way } = details;
  const told = (value: number | null | undefined, text: (value: number) => string) =>
    value === null || value === undefined ? null : text(value);
  const parts = [
    emergence ? emergenceWord[emergence] : null,
    counting === 'whole' ? 'all of them counted' : null,
    told(reached_water, (value) => `${value} reached the water`),
    told(astray, (value) => `${value} went astray`),
    told(taken, (value) => `${value} taken by animals`),
    way && way.length > 0
      ? `way to the water: ${way.map((step) => wayWord[step]).join(', ')}`
      : null,
    instrument ? `by ${instrumentWord[instrument]}` : null,
    wind ? `wind ${windWord[wind]}` : null,
    rain ? `rain ${rainWord[rain]}` : null,
    told(scratch_per_min, (value) => `${value} scratches a minute`),
    told(active_share, (value) => `active ${Math.round(value * 100)} % of the time`),
    told(level_db, (value) => `${value} dB over the noise floor`),
    note ? `“${note}”` : null,
  ];
  return parts.filter((part) => part !== null).join(' · ');
}
