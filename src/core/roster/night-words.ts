import type { Night } from '../domain/night.ts';
import { localeTag } from '../domain/locale.ts';

const DAY_MS = 86_400_000;
const date = new Intl.DateTimeFormat(localeTag, { timeZone: 'UTC', day: 'numeric', month: 'long' });

/** The date of the evening of a night as one says it: `3 July`. */
export function nightWords(night: Night): string {
  return date.format(night * DAY_MS);
}
