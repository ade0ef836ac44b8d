import type { ChainModel } from '../../src/core/inference/hidden-chain.ts';
import type { Random } from '../../src/core/numerics/random.ts';

/** The row of a look's likelihood that holds on a half night, with the event on another (null = never). */
export function rowOn(model: ChainModel, event: number | null, half: number): number {
  if (event === null) return model.reach;
  return half > event ? model.reach + 1 : Math.min(event - half, model.reach);
}

/**
 * One path of the true state, by half night from `first` to `last`, drawn move by move from the
 * model's own transitions. `first` must lie so far from the event that rows do not matter yet.
 */
export function drawPath(
  random: Random,
  model: ChainModel,
  event: number | null,
  first: number,
  last: number,
): Map<number, number> {
  if (event !== null && event - first < model.reach) {
    throw new RangeError('The path starts too near to the event.');
  }
  const { states, reach, rows, steps } = model;
  const farRow = rows.subarray(reach * states, (reach + 1) * states);
  const path = new Map<number, number>();
  let state = drawState(random, farRow);
  path.set(first, state);
  for (let half = first + 1; half <= last; half++) {
    const left = event === null ? Infinity : event - half;
    if (left === -1) state = drawState(random, model.afterStart);
    else if (left < 0) state = random.chance(model.afterRedraw) ? drawState(random, farRow) : state;
    else if (left >= reach)
      state = random.chance(model.farRedraw) ? drawState(random, farRow) : state;
    else {
      const from = (left * states + state) * states;
      state = drawState(random, steps.subarray(from, from + states));
    }
    path.set(half, state);
  }
  return path;
}

/** A state (or reading) in proportion to its chance. Throws when the chances do not sum to 1. */
export function drawState(random: Random, chances: ArrayLike<number>): number {
  const total = Array.from(chances).reduce((sum, p) => sum + p, 0);
  if (Math.abs(total - 1) > 1e-9) throw new RangeError(`Chances sum to ${total}, not to 1.`);
  return random.weighted(Array.from(chances, (p, state) => [state, p] as const));
}
