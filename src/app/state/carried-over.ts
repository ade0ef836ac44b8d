import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { EventBody } from '../../core/log/write-event.ts';

type Carried = Pick<SeasonRecord, 'programme' | 'volunteers' | 'weeklyPatterns'>;

/**
 * What a new season takes over from the one before: the programme as it is set up, its people, and the
 * weekdays on which each of them can sit as a rule. A rule that was given an end ended with it.
 */
export function carriedOver({
  programme,
  volunteers,
  weeklyPatterns,
}: Carried): readonly EventBody[] {
  const names = new Set(volunteers.map(({ fact }) => fact.volunteer));
  return [
    { kind: 'programme-described', programme },
    ...volunteers.map(({ fact: { volunteer, details } }): EventBody => ({
      kind: 'volunteer-enrolled',
      volunteer,
      details,
    })),
    ...weeklyPatterns.flatMap(({ fact: { volunteer, details } }): EventBody[] => {
      const { days, last_night: last } = details;
      const holds = names.has(volunteer) && days.length > 0 && (last ?? null) === null;
      return holds ? [{ kind: 'weekly-pattern-given', volunteer, details: { days } }] : [];
    }),
  ];
}
