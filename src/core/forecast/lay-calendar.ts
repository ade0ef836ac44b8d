import type { NestWork } from './nest-work.ts';

const daysPerYear = 365.25;

/** Middle of the lay nights of some nests, as a night number; NaN when none is known. */
export function middleNight(works: readonly NestWork[]): number {
  const laid = works.flatMap(({ record: { nest } }) => nest.layNight ?? []).sort((a, b) => a - b);
  return laid[Math.floor(laid.length / 2)] ?? NaN;
}

/** Nights in the whole years by which `night` is to be moved to come closest to `target`. */
export function wholeYears_nights(night: number, target: number): number {
  return Math.round((target - night) / daysPerYear) * daysPerYear;
}
