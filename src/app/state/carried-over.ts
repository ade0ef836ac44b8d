import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { EventBody } from '../../core/log/write-event.ts';

/** What a new season takes over from the one before: the programme as it is set up, and its people. */
export function carriedOver(
  programme: SeasonRecord['programme'],
  volunteers: SeasonRecord['volunteers'],
): readonly EventBody[] {
  return [
    { kind: 'programme-described', programme },
    ...volunteers.map(({ fact: { volunteer, details } }): EventBody => ({
      kind: 'volunteer-enrolled',
      volunteer,
      details,
    })),
  ];
}
