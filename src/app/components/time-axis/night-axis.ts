import { scaleLinear } from 'd3-scale';
import type { Night } from '../../../core/domain/night.ts';

/** Where nights lie across a drawing. */
export interface NightAxis {
  readonly from: Night;
  readonly to: Night;
  readonly left_px: number;
  readonly right_px: number;
  /** Width of one night. */
  readonly step_px: number;
  /** Left edge of a night; a fraction goes on into it (evening 0, dawn 0.5). */
  readonly x_px: (night: number) => number;
  /** Nights whose date is written below, a whole number of weeks or days apart, counted from `anchor`. */
  readonly ticks: readonly Night[];
}

/** Least room that one date needs. */
const labelWidth_px = 46;
const spacings_nights = [1, 2, 7, 14, 28, 56];

/** An axis over the nights `from..to`, both included, between two edges; dates count from `anchor`. */
export function nightAxis(
  from: Night,
  to: Night,
  left_px: number,
  right_px: number,
  anchor: Night,
): NightAxis {
  const x_px = scaleLinear([from, to + 1], [left_px, right_px]);
  const step_px = (right_px - left_px) / (to + 1 - from);
  const spacing = spacings_nights.find((nights) => nights * step_px >= labelWidth_px) ?? 84;
  const first = anchor - Math.floor((anchor - from) / spacing) * spacing;
  const ticks: Night[] = [];
  for (let night = first; night <= to; night += spacing) {
    if (x_px(night + 0.5) >= left_px && x_px(night + 0.5) <= right_px) ticks.push(night as Night);
  }
  return { from, to, left_px, right_px, step_px, x_px, ticks };
}
