import type { ChainModel } from './hidden-chain.ts';
import type { LookGroups } from './look-groups.ts';

/**
 * The log-likelihood of the looks up to each group, for every candidate half step of the event and
 * for never: what was known as time went on. Group-major: row g holds the first g groups (row 0 is
 * all zeros), `candidates.length + 1` values each, the last for never.
 */
export function runningEvidence(
  model: ChainModel,
  groups: LookGroups,
  candidates: ArrayLike<number>,
): Float64Array {
  const { states, reach, rows, steps } = model;
  const { at, likelihood } = groups;
  const width = candidates.length + 1;
  const log = new Float64Array((at.length + 1) * width);
  if (at.length === 0) return log;
  const farRow = rows.subarray(reach * states);
  const far = new Float64Array(at.length * states);
  const state = new Float64Array(states);
  const next = new Float64Array(states);
  const relax = (redraw: number, halfSteps: number): void => {
    const keep = (1 - redraw) ** halfSteps;
    for (let s = 0; s < states; s++) state[s] = keep * state[s]! + (1 - keep) * farRow[s]!;
  };
  const weigh = (group: number, row: number): number => {
    let total = 0;
    for (let s = 0; s < states; s++) {
      state[s] = state[s]! * likelihood[group]![row * states + s]!;
      total += state[s]!;
    }
    if (total > 0) for (let s = 0; s < states; s++) state[s] = state[s]! / total;
    return Math.log(total);
  };
  state.set(farRow.subarray(0, states));
  for (let group = 0; group < at.length; group++) {
    if (group > 0) relax(model.farRedraw, at[group]! - at[group - 1]!);
    const never = group * width + width - 1;
    log[never + width] = log[never]! + weigh(group, reach);
    far.set(state, group * states);
  }
  for (let c = 0; c < candidates.length; c++) {
    const event = candidates[c]!;
    const near = event - reach;
    let group = 0;
    for (; group < at.length && at[group]! <= near; group++) {
      log[(group + 1) * width + c] = log[(group + 1) * width + width - 1]!;
    }
    let now = near;
    state.set(farRow.subarray(0, states));
    if (group > 0) {
      state.set(far.subarray((group - 1) * states, group * states));
      relax(model.farRedraw, near - at[group - 1]!);
    }
    for (; group < at.length; group++) {
      const half = at[group]!;
      if (half > event && now <= event) {
        state.set(model.afterStart);
        now = event + 1;
      }
      if (half > event) relax(model.afterRedraw, half - now);
      else {
        for (; now < half; now++) {
          const left = event - now - 1;
          for (let j = 0; j < states; j++) {
            let sum = 0;
            for (let i = 0; i < states; i++) {
              sum += state[i]! * steps[(left * states + i) * states + j]!;
            }
            next[j] = sum;
          }
          state.set(next);
        }
      }
      now = half;
      const row = half > event ? reach + 1 : event - half;
      log[(group + 1) * width + c] = log[group * width + c]! + weigh(group, row);
    }
  }
  return log;
}
