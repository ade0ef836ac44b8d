/**
 * Probabilities of a handful of ordered states, one row for each half step left to an event, and
 * the moves between rows. Row-major: row, then state.
 */
export interface StateRows {
  readonly states: number;
  /** Half steps before the event at which the rows stop depending on how many are left. */
  readonly reach: number;
  /** `reach + 1` rows; row `reach` holds for everything farther off. */
  readonly rows: Float64Array;
}

/**
 * Rows for every half step from rows known at some of them, by straight lines in between.
 * `known` holds pairs [half steps left, probabilities]; the first at 0, the last at the reach.
 */
export function fillRows(known: readonly (readonly [number, readonly number[]])[]): StateRows {
  const first = known[0];
  const last = known[known.length - 1];
  if (first === undefined || last === undefined || first[0] !== 0) {
    throw new RangeError('Rows start at the event itself, 0 half steps left.');
  }
  const states = first[1].length;
  const reach = last[0];
  const rows = new Float64Array((reach + 1) * states);
  for (let index = 0; index + 1 < known.length; index++) {
    const [from, low] = known[index]!;
    const [to, high] = known[index + 1]!;
    for (let left = from; left <= to; left++) {
      const share = (left - from) / (to - from);
      for (let state = 0; state < states; state++) {
        rows[left * states + state] = low[state]! * (1 - share) + high[state]! * share;
      }
    }
  }
  return { states, reach, rows };
}

/**
 * The coupling of two rows that moves as little as possible and never past another: the share of
 * each state of `from` that goes to each state of `to` (quantile coupling). Row-major, each row
 * sums to 1. Where `to` has more of the high states than `from`, mass moves only up.
 */
export function monotoneCoupling(from: ArrayLike<number>, to: ArrayLike<number>): Float64Array {
  const states = from.length;
  const moves = new Float64Array(states * states);
  let fromStart = 0;
  for (let i = 0; i < states; i++) {
    const fromEnd = fromStart + from[i]!;
    let toStart = 0;
    for (let j = 0; j < states; j++) {
      const toEnd = toStart + to[j]!;
      const shared = Math.min(fromEnd, toEnd) - Math.max(fromStart, toStart);
      if (shared > 0) moves[i * states + j] = shared;
      toStart = toEnd;
    }
    fromStart = fromEnd;
  }
  for (let i = 0; i < states; i++) normaliseRow(moves, i * states, states, i);
  return moves;
}

/** Scales a row to sum 1; one without any mass stays where it is. */
function normaliseRow(moves: Float64Array, start: number, states: number, own: number): void {
  let total = 0;
  for (let j = 0; j < states; j++) total += moves[start + j]!;
  if (total <= 0) moves[start + own] = 1;
  else for (let j = 0; j < states; j++) moves[start + j] = moves[start + j]! / total;
}
