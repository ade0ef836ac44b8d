import type { NestForecast } from '../../../core/forecast/forecast.ts';
import type { Night } from '../../../core/domain/night.ts';
import type { NestRecord } from '../../../core/log/season-record.ts';

/** The nights a chart shows, both included. */
export interface ChartWindow {
  readonly from: Night;
  readonly to: Night;
}

/** Before this many nights ago little speaks of tonight. */
const back_nights = 20;
const leastAhead_nights = 6;
const mostAhead_nights = 35;
/** Nights ahead are shown until this share of what is to come is on the chart. */
const shownShare = 0.98;

/**
 * The nights around tonight that matter: from the first note of the last three weeks to the night by
 * which next to all of what is to come has come. `whole`: from the lay night or the first note on.
 * For a nest that is out, up to a few nights after its end.
 */
export function chartWindow(
  record: NestRecord,
  tonight: Night,
  forecast: NestForecast | null,
  end: Night | null,
  whole: boolean,
): ChartWindow {
  const firstNote = record.visits[0]?.night ?? tonight;
  const last = end === null ? tonight : (Math.min(tonight, end + 3) as Night);
  const start =
    record.nest.layNight === null ? firstNote : Math.min(record.nest.layNight, firstNote);
  const from = whole
    ? Math.min(start, last - 7)
    : Math.max(last - back_nights, Math.min(start, last - 7));
  const to = end === null ? endOf(forecast, tonight) : last;
  return { from: from as Night, to: to as Night };
}

function endOf(forecast: NestForecast | null, tonight: Night): number {
  const nights = forecast?.distribution ?? [];
  const whole = nights.reduce((sum, { p }) => sum + p, 0);
  let so = 0;
  let end: number = tonight;
  for (const { night, p } of nights) {
    so += p;
    end = night;
    if (so >= shownShare * whole) break;
  }
  return Math.max(tonight + leastAhead_nights, Math.min(end, tonight + mostAhead_nights));
}
