import type { ChainModel } from './hidden-chain.ts';
import type { LookGroups } from './look-groups.ts';

/**
 * What a chain is expected to have done, given its looks and how likely each half step of the event
 * is. Indices by half steps left: 0 .. reach - 1, then far (`reach`), then after the event.
 */
export interface ChainCounts {
  /**
   * Chance of each row and state at each group of looks; group-major, then row (reach + 2), then
   * state. Sums to the weight of all candidates for each group.
   */
  readonly atLooks: Float64Array;
  /** Expected redraws in the half steps between looks, and how many half steps those were. */
  readonly redraws: Float64Array;
  readonly moves: Float64Array;
  /** States on the half step after the event, as far as a look since still tells of them. */
  readonly afterStart: Float64Array;
}

/** Candidates of less weight than this add nothing that could be seen. */
const negligible = 1e-5;

/**
 * Expected counts from the forward-backward pass over the looks under every candidate half step of
 * the event, weighted by `weights` (one for each candidate; the last for an event that never comes).
 * Source: Baum et al. 1970, Ann. Math. Statist. 41:164-171 (from memory).
 */
export function chainCounts(
  model: ChainModel,
  groups: LookGroups,
  candidates: ArrayLike<number>,
  weights: ArrayLike<number>,
): ChainCounts {
  const { states, reach } = model;
  const total = groups.at.length;
  const counts: ChainCounts = {
    atLooks: new Float64Array(total * (reach + 2) * states),
    redraws: new Float64Array(reach + 2),
    moves: new Float64Array(reach + 2),
    afterStart: new Float64Array(states),
  };
  if (total === 0) return counts;
  const last = groups.at[total - 1]!;
  const passes = new Passes(model, groups, counts);
  // Candidates so far off that every look was made far from them are all like never.
  let farWeight = weights[candidates.length]!;
  for (let c = 0; c < candidates.length; c++) {
    const event = candidates[c]!;
    const weight = weights[c]!;
    if (event - reach >= last) farWeight += weight;
    else if (weight > negligible) passes.count(event, weight);
  }
  if (farWeight > negligible) passes.count(last + reach, farWeight);
  return counts;
}

/** One forward and one backward pass for one half step of the event at a time. */
class Passes {
  /** State after each group's looks, given those up to it. */
  readonly #filtered: Float64Array;
  /** State before each near move, given the looks before it; by half steps left after the move. */
  readonly #before: Float64Array;
  readonly #state: Float64Array;
  readonly #next: Float64Array;
  readonly #ahead: Float64Array;

  constructor(
    readonly model: ChainModel,
    readonly groups: LookGroups,
    readonly counts: ChainCounts,
  ) {
    const { states, reach } = model;
    this.#filtered = new Float64Array(groups.at.length * states);
    this.#before = new Float64Array(reach * states);
    this.#state = new Float64Array(states);
    this.#next = new Float64Array(states);
    this.#ahead = new Float64Array(states);
  }

  count(event: number, weight: number): void {
    const { at } = this.groups;
    let before = at.length;
    while (before > 0 && at[before - 1]! > event) before--;
    if (before > 0) {
      this.#forwardBefore(event, before);
      this.#backwardBefore(event, before, weight);
    }
    if (before < at.length) {
      this.#forwardAfter(event, before);
      this.#backwardAfter(event, before, weight);
    }
  }

  #forwardBefore(event: number, until: number): void {
    const { states, reach, rows, steps } = this.model;
    const { at } = this.groups;
    const state = this.#state;
    const next = this.#next;
    for (let group = 0; group < until; group++) {
      const half = at[group]!;
      const row = Math.min(event - half, reach);
      if (group === 0) {
        state.set(rows.subarray(row * states, (row + 1) * states));
      } else {
        const near = this.#relaxFar(event, at[group - 1]!, half);
        for (let left = event - near - 1; left >= event - half; left--) {
          this.#before.set(state, left * states);
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
      this.#weigh(group, row);
    }
  }

  /** Far from the event, moves the state on to `to` or as far as the near rows; gives how far. */
  #relaxFar(event: number, from: number, to: number): number {
    const far = Math.max(from, Math.min(to, event - this.model.reach));
    if (far > from) this.#relax(this.model.farRedraw, far - from);
    return far;
  }

  #relax(redraw: number, halfSteps: number): void {
    const { states, reach, rows } = this.model;
    const keep = (1 - redraw) ** halfSteps;
    const state = this.#state;
    for (let s = 0; s < states; s++) {
      state[s] = keep * state[s]! + (1 - keep) * rows[reach * states + s]!;
    }
  }

  /** Takes in the looks of a group and remembers the state. */
  #weigh(group: number, row: number): void {
    const { states } = this.model;
    const likelihood = this.groups.likelihood[group]!;
    const state = this.#state;
    let total = 0;
    for (let s = 0; s < states; s++) {
      state[s] = state[s]! * likelihood[row * states + s]!;
      total += state[s]!;
    }
    for (let s = 0; s < states; s++) state[s] = total > 0 ? state[s]! / total : 1 / states;
    this.#filtered.set(state, group * states);
  }

  #backwardBefore(event: number, until: number, weight: number): void {
    const { states, reach, rows, steps, redraw } = this.model;
    const { at } = this.groups;
    const { redraws, moves } = this.counts;
    const ahead = this.#ahead.fill(1);
    const next = this.#next;
    for (let group = until - 1; group >= 0; group--) {
      const half = at[group]!;
      const row = Math.min(event - half, reach);
      this.#see(group, row, weight);
      if (group === 0) return;
      const near = Math.max(at[group - 1]!, Math.min(half, event - reach));
      for (let left = event - half; left < event - near; left++) {
        let drawn = 0;
        let all = 0;
        for (let i = 0; i < states; i++) {
          let sum = 0;
          for (let j = 0; j < states; j++) {
            sum += steps[(left * states + i) * states + j]! * ahead[j]!;
          }
          next[i] = sum;
          all += this.#before[left * states + i]! * sum;
          drawn += rows[left * states + i]! * ahead[i]!;
        }
        if (all > 0) redraws[left] = redraws[left]! + (weight * redraw[left]! * drawn) / all;
        moves[left] = moves[left]! + weight;
        ahead.set(next);
      }
      if (near > at[group - 1]!) {
        this.#lookBack(group - 1, this.model.farRedraw, near - at[group - 1]!, reach, weight);
      }
    }
  }

  /** Adds a group to the counts, and takes its looks into what lies ahead. */
  #see(group: number, row: number, weight: number): void {
    const { states, reach } = this.model;
    const likelihood = this.groups.likelihood[group]!;
    const ahead = this.#ahead;
    const { atLooks } = this.counts;
    let total = 0;
    for (let s = 0; s < states; s++) total += this.#filtered[group * states + s]! * ahead[s]!;
    let largest = 0;
    for (let s = 0; s < states; s++) {
      const cell = (group * (reach + 2) + row) * states + s;
      const chance = total > 0 ? (this.#filtered[group * states + s]! * ahead[s]!) / total : 0;
      atLooks[cell] = atLooks[cell]! + weight * chance;
      ahead[s] = ahead[s]! * likelihood[row * states + s]!;
      largest = Math.max(largest, ahead[s]!);
    }
    for (let s = 0; s < states; s++) ahead[s] = largest > 0 ? ahead[s]! / largest : 1;
  }

  /** Back over half steps without looks in which the state goes towards the far row. */
  #lookBack(from: number, redraw: number, halfSteps: number, index: number, weight: number): void {
    const { states, reach, rows } = this.model;
    const { redraws, moves } = this.counts;
    const ahead = this.#ahead;
    const keep = (1 - redraw) ** halfSteps;
    let kept = 0;
    let mean = 0;
    for (let s = 0; s < states; s++) {
      kept += this.#filtered[from * states + s]! * ahead[s]!;
      mean += rows[reach * states + s]! * ahead[s]!;
    }
    const all = keep * kept + (1 - keep) * mean;
    if (all > 0) {
      // Given that it was redrawn at all, the mean number of redraws is n a / (1 - (1 - a)^n).
      redraws[index] = redraws[index]! + (weight * mean * halfSteps * redraw) / all;
    }
    moves[index] = moves[index]! + weight * halfSteps;
    for (let s = 0; s < states; s++) ahead[s] = keep * ahead[s]! + (1 - keep) * mean;
  }

  #forwardAfter(event: number, from: number): void {
    const { afterStart, afterRedraw, reach } = this.model;
    const { at } = this.groups;
    this.#state.set(afterStart);
    let now = event + 1;
    for (let group = from; group < at.length; group++) {
      this.#relax(afterRedraw, at[group]! - now);
      now = at[group]!;
      this.#weigh(group, reach + 1);
    }
  }

  #backwardAfter(event: number, from: number, weight: number): void {
    const { states, reach, rows, afterStart, afterRedraw } = this.model;
    const { at } = this.groups;
    const after = reach + 1;
    const ahead = this.#ahead.fill(1);
    for (let group = at.length - 1; group > from; group--) {
      this.#see(group, after, weight);
      this.#lookBack(group - 1, afterRedraw, at[group]! - at[group - 1]!, after, weight);
    }
    this.#see(from, after, weight);
    const keep = (1 - afterRedraw) ** (at[from]! - event - 1);
    let kept = 0;
    let mean = 0;
    for (let s = 0; s < states; s++) {
      kept += keep * afterStart[s]! * ahead[s]!;
      mean += (1 - keep) * rows[reach * states + s]! * ahead[s]!;
    }
    if (kept + mean <= 0) return;
    const count = this.counts.afterStart;
    for (let s = 0; s < states; s++) {
      count[s] = count[s]! + (weight * keep * afterStart[s]! * ahead[s]!) / (kept + mean);
    }
  }
}
