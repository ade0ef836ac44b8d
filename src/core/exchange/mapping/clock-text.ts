const CLOCK = /^(\d{1,2})\s*[:h.]\s*(\d{2})(?::(\d{2})(?:\.\d+)?)?\s*(?:h|hs|hrs?|horas?)?$/i;
const BARE_HOUR = /^(\d{1,2})\s*(?:h|hs|hrs?|horas?)$/i;
const FOUR_DIGITS = /^([01]\d|2[0-3])([0-5]\d)$/;
const HALF_OF_DAY = /^(.*?)\s*([ap])\s*\.?\s*m\.?$/i;
const PART_OF_DAY = /^0?[.,]\d+$/;
const DAY_MIN = 1440;

/**
 * A time of day in one of the ways people write it, as `21:30` (seconds only when there are any):
 * `21:30`, `9:30 PM`, `9:30 p. m.`, `21h30`, `21.30`, `2130`, or a part of a day as spreadsheets
 * count it. Null when it is none.
 */
export function readClock(text: string): string | null {
  const trimmed = text.trim();
  const half = HALF_OF_DAY.exec(trimmed);
  if (half !== null) return halfDay(half[1] ?? '', (half[2] ?? '').toLowerCase() === 'p');
  const four = FOUR_DIGITS.exec(trimmed);
  if (four !== null) return clock(Number(four[1]), Number(four[2]), 0);
  if (PART_OF_DAY.test(trimmed)) {
    const minutes = Math.round(Number(trimmed.replace(',', '.')) * DAY_MIN);
    return clock(Math.floor(minutes / 60), minutes % 60, 0);
  }
  const parts = CLOCK.exec(trimmed) ?? BARE_HOUR.exec(trimmed);
  return parts === null
    ? null
    : clock(Number(parts[1]), Number(parts[2] ?? 0), Number(parts[3] ?? 0));
}

function halfDay(text: string, afternoon: boolean): string | null {
  const parts = /^(\d{1,2})(?:[:.](\d{2})(?::(\d{2}))?)?$/.exec(text);
  const hour = Number(parts?.[1]);
  if (parts === null || hour < 1 || hour > 12) return null;
  const turned = (hour % 12) + (afternoon ? 12 : 0);
  return clock(turned, Number(parts[2] ?? 0), Number(parts[3] ?? 0));
}

function clock(hour: number, minute: number, second: number): string | null {
  if (hour > 23 || minute > 59 || second > 59) return null;
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${two(hour)}:${two(minute)}${second === 0 ? '' : `:${two(second)}`}`;
}
