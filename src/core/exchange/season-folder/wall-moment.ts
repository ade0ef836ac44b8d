import { atWallClock } from '../../domain/night.ts';

/** Wall clocks consulted lately: a zone's rules are slow to consult. A cache only. */
const lately = new Map<string, number>();
const REMEMBERED = 5000;

/** Epoch milliseconds when the clocks of a zone show `minute` past midnight of a day. */
export function wallMoment(day: number, minute: number, zone: string): number {
  const key = `${day} ${minute} ${zone}`;
  let at_ms = lately.get(key);
  if (at_ms === undefined) {
    if (lately.size > REMEMBERED) lately.clear();
    at_ms = atWallClock(day, minute, zone);
    lately.set(key, at_ms);
  }
  return at_ms;
}
