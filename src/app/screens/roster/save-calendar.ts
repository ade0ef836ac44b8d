import { revisedNights } from '../../../core/exchange/revised-nights.ts';
import type { SeasonRecord } from '../../../core/log/season-record.ts';
import type { FileDesk } from '../../state/file-desk.ts';

/** Hands over the shifts that were given out as a calendar file: one person's, or (null) everybody's. */
export async function saveCalendar(
  record: SeasonRecord,
  person: string | null,
  files: FileDesk,
): Promise<void> {
  const { calendarText } = await import('../../../core/exchange/icalendar.ts');
  const programme = record.programme.name ?? '';
  const text = calendarText(revisedNights(record), { programme, zone: record.zone, person });
  const name = (person ?? 'everybody').replaceAll(/[^\p{L}\p{N}]+/gu, '-').toLowerCase();
  files.save(`nest-watch-${name}.ics`, 'text/calendar', text);
}
