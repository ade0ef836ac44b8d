import type { Reading } from '../../core/acoustics/reading.ts';
import type { Instrument, VisitDetails } from '../../core/domain/visit.ts';

/** What a reading puts into a note; nothing of the sound itself. Null when it could not tell. */
export function meterDetails(reading: Reading, instrument: Instrument): VisitDetails | null {
  const { scratch_per_min, active_share, state, likelihood } = reading;
  if (scratch_per_min === null || active_share === null || state === 'can not tell') return null;
  return {
    instrument,
    scratch_per_min: rounded(scratch_per_min, 1),
    active_share: rounded(active_share, 3),
    level_db: rounded(reading.level_db, 1),
    meter_quiet: rounded(likelihood.quiet, 3),
    meter_occasional: rounded(likelihood.occasional, 3),
    meter_steady: rounded(likelihood.steady, 3),
    meter_waterfall: rounded(likelihood.waterfall, 3),
  };
}

const rounded = (value: number, digits: number): number => Number(value.toFixed(digits));
