import { atWallClock } from '../domain/night.ts';
import type { WatchName } from '../domain/roster.ts';
import type { NightOutlook } from './roster-question.ts';
import type { RosterRules } from './roster-rules.ts';

/** One stretch of one night in which posts are kept. */
export interface Shift {
  readonly outlook: NightOutlook;
  readonly watch: WatchName;
  readonly from_ms: number;
  readonly to_ms: number;
}

/**
 * The watches of some nights: the evening one from sunset to the hour set, the late one from there to
 * sunrise. One that would be over before it begins is left out.
 */
export function shiftsOf(
  nights: readonly NightOutlook[],
  rules: Pick<RosterRules, 'watches' | 'eveningEnds_min'>,
  zone: string,
): readonly Shift[] {
  return nights.flatMap((outlook) => {
    const { night, sunset_ms, sunrise_ms } = outlook;
    const change_ms = atWallClock(night, rules.eveningEnds_min, zone);
    const evening = { from_ms: sunset_ms, to_ms: Math.min(change_ms, sunrise_ms) };
    const late = { from_ms: Math.max(change_ms, sunset_ms), to_ms: sunrise_ms };
    return rules.watches
      .map((watch) => ({ outlook, watch, ...(watch === 'evening' ? evening : late) }))
      .filter(({ from_ms, to_ms }) => to_ms > from_ms)
      .sort((a, b) => a.from_ms - b.from_ms);
  });
}
