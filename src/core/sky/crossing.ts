/** When a light in the sky passes a level, or that it stays on one side of it. */
export type Crossing =
  | { readonly kind: 'at'; readonly time_ms: number }
  | { readonly kind: 'always up' }
  | { readonly kind: 'always down' };

/** A stretch of time, epoch milliseconds. */
export interface Span {
  readonly from_ms: number;
  readonly to_ms: number;
}

/** A crossing is found when the altitude is this close to the level, or the time this narrow. */
const closeEnough_deg = 1e-6;
const narrowEnough_ms = 1;

/**
 * The moment between two instants at which an altitude passes a level, to the millisecond (to some
 * seconds where it only just grazes the level). `altitude_deg` must rise or fall all the way from
 * one instant to the other. When it is above the level at both, or below it at both, that is the
 * answer. Method: false position, halving the weight of an end that stays (the Illinois rule).
 */
export function crossingBetween(
  altitude_deg: (at_ms: number) => number,
  level_deg: number,
  from_ms: number,
  to_ms: number,
): Crossing {
  let [left_ms, right_ms] = [from_ms, to_ms];
  let [left_deg, right_deg] = [altitude_deg(from_ms) - level_deg, altitude_deg(to_ms) - level_deg];
  const startsUp = left_deg > 0;
  if (startsUp === right_deg > 0) return { kind: startsUp ? 'always up' : 'always down' };

  let time_ms = left_ms;
  let lastMoved: 'left' | 'right' | null = null;
  while (right_ms - left_ms > narrowEnough_ms) {
    time_ms = left_ms + ((right_ms - left_ms) * left_deg) / (left_deg - right_deg);
    const here_deg = altitude_deg(time_ms) - level_deg;
    if (Math.abs(here_deg) < closeEnough_deg) break;
    if (here_deg > 0 === startsUp) {
      [left_ms, left_deg] = [time_ms, here_deg];
      if (lastMoved === 'left') right_deg /= 2;
      lastMoved = 'left';
    } else {
      [right_ms, right_deg] = [time_ms, here_deg];
      if (lastMoved === 'right') left_deg /= 2;
      lastMoved = 'right';
    }
  }
  return { kind: 'at', time_ms: Math.round(time_ms) };
}
