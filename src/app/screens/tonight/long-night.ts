import { formatNight, type Night } from '../../../core/domain/night.ts';
import { localeTag } from '../../../core/domain/locale.ts';

// Made when first used: it is the dearest part of the app's start on a slow phone.
let words: Intl.DateTimeFormat | null = null;

/** `Thursday 23 July`: the date of a night's evening, as a heading. */
export function longNight(night: Night): string {
  words ??= new Intl.DateTimeFormat(localeTag, {
    weekday: 'long',
    day: 'numeric',
    month: 'long',
    timeZone: 'UTC',
  });
  return words.format(Date.parse(`${formatNight(night)}T12:00Z`)).replace(',', '');
}
