import { type StateRows, monotoneCoupling } from './state-rows.ts';

/**
 * A hidden chain of states that leads up to an event on an unknown half step, and starts anew
 * after it. Time is counted in half steps. With `left` half steps to go the chain has the
 * marginal `rows[left]`; from `reach` on out nothing depends on how many are left.
 */
export interface ChainModel {
  readonly states: number;
  readonly reach: number;
  readonly rows: Float64Array;
  /** Moves from `left + 1` to `left`, one matrix for each `left` from 0 to `reach - 1`. */
  readonly steps: Float64Array;
  /** Share redrawn from the row moved to, for each move as `steps`. */
  readonly redraw: Float64Array;
  /** Share redrawn from the far row in one half step far from the event. */
  readonly farRedraw: number;
  /** State on the first half step after the event, and the share redrawn from the far row after it. */
  readonly afterStart: Float64Array;
  readonly afterRedraw: number;
}

/**
 * Builds the moves: T = (1 - a) x monotone coupling of neighbouring rows + a x a redraw from the
 * nearer row, which reproduces every row exactly. `redraw[left]` is a for the move to `left`, per
 * half step.
 */
export function chainModel(
  table: StateRows,
  redraw: (left: number) => number,
  after: { start: readonly number[]; redraw: number },
): ChainModel {
  const { states, reach, rows } = table;
  const square = states * states;
  const steps = new Float64Array(reach * square);
  for (let left = 0; left < reach; left++) {
    const to = rows.subarray(left * states, (left + 1) * states);
    const from = rows.subarray((left + 1) * states, (left + 2) * states);
    const moves = monotoneCoupling(from, to);
    const a = redraw(left);
    for (let i = 0; i < states; i++) {
      for (let j = 0; j < states; j++) {
        steps[left * square + i * states + j] = (1 - a) * moves[i * states + j]! + a * to[j]!;
      }
    }
  }
  return {
    states,
    reach,
    rows,
    steps,
    redraw: Float64Array.from({ length: reach }, (_, left) => redraw(left)),
    farRedraw: redraw(reach),
    afterStart: Float64Array.from(after.start),
    afterRedraw: after.redraw,
  };
}

/**
 * What was seen of a state on one half step: the likelihood of it under each state, by how many
 * half steps were left: rows 0 .. reach (the last for all that is farther), then one for after the
 * event. Several looks on one half step share one true state.
 */
export interface Look {
  readonly at: number;
  readonly likelihood: Float64Array;
}

/** The log-likelihood of all looks for each candidate, and for an event that never comes. */
export interface ChainEvidence {
  readonly byCandidate: Float64Array;
  readonly never: number;
  /**
   * With a horizon: the states' probabilities there, candidate-major, the last row for never; else
   * empty.
   */
  readonly atHorizon: Float64Array;
}

/**
 * Runs the chain for every candidate half step of the event. `looks` in order of time. The pass far
 * from the event is made once and shared; the passes after the event share one backward pass.
 * With `horizon` (not before the last look) also gives, for each candidate, the states'
 * probabilities on that half step given the looks.
 */
export function chainEvidence(
  model: ChainModel,
  looks: readonly Look[],
  candidates: ArrayLike<number>,
  horizon: number | null = null,
): ChainEvidence {
  const { states, reach } = model;
  const count = candidates.length;
  const byCandidate = new Float64Array(count);
  const atHorizon = new Float64Array(horizon === null ? 0 : (count + 1) * states);
  const far = farPass(model, looks);
  const after = afterPass(model, looks);
  const state = new Float64Array(states);
  const next = new Float64Array(states);
  const lastLook = looks.length === 0 ? -Infinity : looks[looks.length - 1]!.at;
  const end = horizon ?? lastLook;
  for (let c = 0; c < count; c++) {
    const event = candidates[c]!;
    const near = event - reach; // the half step from which rows start to matter
    let index = far.looksUpTo(near);
    let logScale = far.stateAfter(index, state);
    const until = Math.min(event, end);
    let now = index === 0 ? near : looks[index - 1]!.at;
    if (index === 0) state.set(model.rows.subarray(reach * states));
    if (now < Math.min(near, until)) {
      relax(state, model.rows, reach * states, model.farRedraw, Math.min(near, until) - now);
      now = Math.min(near, until);
    }
    while (index < looks.length || now < until) {
      const target = index < looks.length ? Math.min(looks[index]!.at, until) : until;
      while (now < target) {
        step(model.steps, (event - now - 1) * states * states, state, next);
        state.set(next);
        now++;
      }
      if (index >= looks.length || looks[index]!.at > event) break;
      const likelihood = looks[index]!.likelihood;
      logScale += weigh(state, likelihood, Math.min(event - now, reach) * states);
      index++;
    }
    if (event < end) {
      logScale += after.logLikelihoodFrom(event + 1);
      if (horizon !== null) after.stateAt(event + 1, horizon, state);
    }
    byCandidate[c] = logScale;
    if (horizon !== null) atHorizon.set(state, c * states);
  }
  if (horizon !== null) {
    far.stateAfter(looks.length, state);
    const since = looks.length === 0 ? 0 : horizon - lastLook;
    if (looks.length === 0) state.set(model.rows.subarray(reach * states));
    relax(state, model.rows, reach * states, model.farRedraw, since);
    atHorizon.set(state, count * states);
  }
  return { byCandidate, never: far.total, atHorizon };
}

/** Forward through all looks as if the event were far off: shared by all candidates and by never. */
function farPass(model: ChainModel, looks: readonly Look[]) {
  const { states, reach, rows, farRedraw } = model;
  const saved = new Float64Array(looks.length * states);
  const scales = new Float64Array(looks.length + 1);
  const state = new Float64Array(rows.subarray(reach * states, (reach + 1) * states));
  for (let index = 0; index < looks.length; index++) {
    const look = looks[index]!;
    if (index > 0) relax(state, rows, reach * states, farRedraw, look.at - looks[index - 1]!.at);
    scales[index + 1] = scales[index]! + weigh(state, look.likelihood, reach * states);
    saved.set(state, index * states);
  }
  return {
    total: scales[looks.length]!,
    /** How many looks lie at or before a half step. */
    looksUpTo(at: number): number {
      let low = 0;
      let high = looks.length;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (looks[middle]!.at <= at) low = middle + 1;
        else high = middle;
      }
      return low;
    },
    /** Writes the state after the first `index` looks, and gives their log-likelihood. */
    stateAfter(index: number, into: Float64Array): number {
      if (index > 0) into.set(saved.subarray((index - 1) * states, index * states));
      return scales[index]!;
    },
  };
}

/**
 * Backward through the looks as if the event were over: the log-likelihood of those from a half
 * step on, given that the event was on the half step before it.
 */
function afterPass(model: ChainModel, looks: readonly Look[]) {
  const { states, reach, rows, afterStart, afterRedraw } = model;
  const farRow = rows.subarray(reach * states, (reach + 1) * states);
  const row = (reach + 1) * states;
  const betas = new Float64Array((looks.length + 1) * states).fill(1);
  const scales = new Float64Array(looks.length + 1);
  for (let index = looks.length - 1; index >= 0; index--) {
    const gap = index + 1 < looks.length ? looks[index + 1]!.at - looks[index]!.at : 0;
    const keep = (1 - afterRedraw) ** gap;
    let mean = 0;
    for (let s = 0; s < states; s++) mean += farRow[s]! * betas[(index + 1) * states + s]!;
    let largest = 0;
    for (let s = 0; s < states; s++) {
      const later = keep * betas[(index + 1) * states + s]! + (1 - keep) * mean;
      const value = later * looks[index]!.likelihood[row + s]!;
      betas[index * states + s] = value;
      if (value > largest) largest = value;
    }
    if (largest > 0) {
      for (let s = 0; s < states; s++)
        betas[index * states + s] = betas[index * states + s]! / largest;
    }
    scales[index] = scales[index + 1]! + Math.log(largest);
  }
  const firstFrom = (at: number): number => {
    let low = 0;
    let high = looks.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (looks[middle]!.at < at) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return {
    logLikelihoodFrom(start: number): number {
      const index = firstFrom(start);
      if (index === looks.length) return 0;
      const keep = (1 - afterRedraw) ** (looks[index]!.at - start);
      let sum = 0;
      for (let s = 0; s < states; s++) {
        sum += (keep * afterStart[s]! + (1 - keep) * farRow[s]!) * betas[index * states + s]!;
      }
      return Math.log(sum) + scales[index]!;
    },
    /** Writes the state on half step `at`, given the event before `start` and the looks since. */
    stateAt(start: number, at: number, into: Float64Array): void {
      into.set(afterStart);
      let now = start;
      for (let index = firstFrom(start); index < looks.length; index++) {
        relax(into, rows, reach * states, afterRedraw, looks[index]!.at - now);
        now = looks[index]!.at;
        weigh(into, looks[index]!.likelihood, row);
      }
      relax(into, rows, reach * states, afterRedraw, at - now);
    },
  };
}

/** Moves a state towards a row for some half steps: each keeps (1 - redraw) of what was there. */
function relax(
  state: Float64Array,
  rows: Float64Array,
  row: number,
  redraw: number,
  halfSteps: number,
): void {
  const keep = (1 - redraw) ** halfSteps;
  for (let s = 0; s < state.length; s++) {
    state[s] = keep * state[s]! + (1 - keep) * rows[row + s]!;
  }
}

function step(moves: Float64Array, start: number, from: Float64Array, to: Float64Array): void {
  const states = from.length;
  for (let j = 0; j < states; j++) {
    let sum = 0;
    for (let i = 0; i < states; i++) sum += from[i]! * moves[start + i * states + j]!;
    to[j] = sum;
  }
}

/** Multiplies a state by a likelihood, scales it back to sum 1, and gives the log of the scale. */
function weigh(state: Float64Array, likelihood: Float64Array, row: number): number {
  let total = 0;
  for (let s = 0; s < state.length; s++) {
    const value = state[s]! * likelihood[row + s]!;
    state[s] = value;
    total += value;
  }
  if (total > 0) for (let s = 0; s < state.length; s++) state[s] = state[s]! / total;
  return Math.log(total);
}
