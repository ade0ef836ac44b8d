import { DailyValues } from './daily-values.ts';
import type { Measured } from './day-means.ts';
import { weatherMemory_days } from './seasonal-normal.ts';

/** How long the temper of a season outlasts its last measured day (guess). */
const TEMPER_DAYS = 120;
/**
 * Over how many measured days at an end the temper is taken, and how many weigh as much as none.
 */
const TEMPER_WINDOW = 60;
const TEMPER_DOUBT = 15;

/**
 * A series without gaps: the measured value where there is one, elsewhere `base` and what the
 * measured days around differ from it.
 *
 * Between two measured days the difference is the conditional mean of a process that forgets with
 * `weatherMemory_days` (an Ornstein-Uhlenbeck bridge): a short gap is bridged straight, in the
 * middle of a long one the base returns. Before the first and after the last, the mean difference
 * of the nearest weeks (the season's temper) fades slowly and the rest of it fast. `base` must span
 * the measured days.
 */
export function fillGaps(base: DailyValues, measured: Measured): DailyValues {
  const known = [...measured]
    .sort(([a], [b]) => a - b)
    .map(([day, value]): Difference => ({ day, over: value - base.at(day) }));
  const filled = new DailyValues(base.first, base.last, (day) => base.at(day));
  for (const [day, value] of measured) filled.set(day, value);

  let before: Difference | null = null;
  for (const after of known) {
    if (before !== null) bridge(filled, before, after);
    before = after;
  }
  const first = known[0];
  const last = before;
  if (first === undefined || last === null) return filled;
  const early = temper(known.filter(({ day }) => day < first.day + TEMPER_WINDOW));
  const late = temper(known.filter(({ day }) => day > last.day - TEMPER_WINDOW));
  for (let day = base.first; day < first.day; day++) {
    filled.set(day, base.at(day) + fading(early, first.over, first.day - day));
  }
  for (let day = last.day + 1; day <= base.last; day++) {
    filled.set(day, base.at(day) + fading(late, last.over, day - last.day));
  }
  return filled;
}

/** By how much a measured day is over its base. */
interface Difference {
  readonly day: number;
  readonly over: number;
}

function bridge(filled: DailyValues, before: Difference, after: Difference): void {
  const whole = (after.day - before.day) / weatherMemory_days;
  for (let day = before.day + 1; day < after.day; day++) {
    const since = (day - before.day) / weatherMemory_days;
    const over =
      before.over * shareLeft(since, whole) + after.over * shareLeft(whole - since, whole);
    filled.set(day, filled.at(day) + over);
  }
}

/** sinh(whole - gone) / sinh(whole), written so that a gap of years does not overflow. */
function shareLeft(gone: number, whole: number): number {
  return (Math.exp(-gone) * -Math.expm1(-2 * (whole - gone))) / -Math.expm1(-2 * whole);
}

function temper(near: readonly Difference[]): number {
  return near.reduce((sum, { over }) => sum + over, 0) / (near.length + TEMPER_DOUBT);
}

function fading(temper_c: number, over: number, days: number): number {
  const fast = Math.exp(-days / weatherMemory_days);
  return temper_c * Math.exp(-days / TEMPER_DAYS) + (over - temper_c) * fast;
}
