import { formatNight, type Night } from '../../../core/domain/night.ts';
import { localeTag } from '../../../core/domain/locale.ts';

const words = new Intl.DateTimeFormat(localeTag, {
  weekday: 'long',
  day: 'numeric',
  month: 'long',
  timeZone: 'UTC',
});

/** `Thursday 23 July`: the date of a night's evening, as a heading. */
export function longNight(night: Night): string {
  return words.format(Date.parse(`${formatNight(night)}T12:00Z`)).replace(',', '');
}
