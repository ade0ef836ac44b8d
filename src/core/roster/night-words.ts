import type { Night } from '../domain/night.ts';

const DAY_MS = 86_400_000;
const date = new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', day: 'numeric', month: 'long' });

/** The date of the evening of a night as one says it: `3 July`. */
export function nightWords(night: Night): string {
  return date.format(night * DAY_MS);
}

/** `Ada, Bo and Cy`. */
export function listWords(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
}
