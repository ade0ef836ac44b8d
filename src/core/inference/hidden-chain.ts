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

export interface ChainOptions {
  /**
   * A half step not before the last look, for which the states' probabilities given the looks are
   * wanted too.
   */
  readonly horizon?: number | null;
  /** Candidates marked 0 are passed over: their values stay as they were. */
  readonly wanted?: Uint8Array | null;
  /** Where to write `byCandidate`; a new array unless given. */
  readonly into?: Float64Array | null;
}

/**
 * Runs the chain for every candidate half step of the event. `looks` in order of time. The pass far
 * from the event is made once and shared; the passes after the event share one backward pass; only
 * the half steps from `reach` before a candidate to the last look before it are walked one by one.
 */
export function chainEvidence(
  model: ChainModel,
  looks: readonly Look[],
  candidates: ArrayLike<number>,
  { horizon = null, wanted = null, into = null }: ChainOptions = {},
): ChainEvidence {
  const { states, reach, rows, steps } = model;
  const count = candidates.length;
  const byCandidate = into ?? new Float64Array(count);
  const atHorizon = horizon === null ? nothing : new Float64Array((count + 1) * states);
  far.run(model, looks);
  after.run(model, looks);
  const state = scratch(states, 0);
  const next = scratch(states, 1);
  const lastLook = looks.length === 0 ? -Infinity : looks[looks.length - 1]!.at;
  const end = horizon ?? lastLook;
  for (let c = 0; c < count; c++) {
    if (wanted !== null && wanted[c] === 0) continue;
    const event = candidates[c]!;
    const near = event - reach; // the half step from which rows start to matter
    let index = looksUpTo(looks, near);
    const until = looksUpTo(looks, event);
    let logScale = far.scales[index]!;
    // Without a look yet the chain is on its rows, wherever it is.
    let now = index > 0 ? looks[index - 1]!.at : -Infinity;
    if (index > 0) far.stateAfter(index, state);
    const stop = horizon !== null && horizon <= event ? horizon : -Infinity;
    for (; index < until || now < stop; index++) {
      const look = index < until ? looks[index]! : null;
      const at = look === null ? stop : look.at;
      if (now === -Infinity) {
        const row = Math.min(event - at, reach) * states;
        for (let s = 0; s < states; s++) state[s] = rows[row + s]!;
      } else {
        if (now < near) {
          const to = Math.min(near, at);
          relax(state, rows, reach * states, model.farRedraw, to - now);
          now = to;
        }
        for (; now < at; now++) {
          step(steps, (event - now - 1) * states * states, state, next);
          for (let s = 0; s < states; s++) state[s] = next[s]!;
        }
      }
      now = at;
      if (look === null) break;
      logScale += weigh(state, look.likelihood, Math.min(event - at, reach) * states);
    }
    if (event < end) {
      logScale += after.logLikelihoodFrom(event + 1, until);
      if (horizon !== null) after.stateAt(event + 1, horizon, state);
    }
    byCandidate[c] = logScale;
    if (horizon !== null) atHorizon.set(state, c * states);
  }
  if (horizon !== null) {
    if (looks.length === 0) state.set(rows.subarray(reach * states, (reach + 1) * states));
    else {
      far.stateAfter(looks.length, state);
      relax(state, rows, reach * states, model.farRedraw, horizon - lastLook);
    }
    atHorizon.set(state, count * states);
  }
  return { byCandidate, never: far.scales[looks.length]!, atHorizon };
}

/** How many looks lie at or before a half step. */
function looksUpTo(looks: readonly Look[], at: number): number {
  let low = 0;
  let high = looks.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (looks[middle]!.at <= at) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Forward through all looks as if the event were far off: shared by all candidates and by never. */
class FarPass {
  /** Log-likelihood of the first so many looks. */
  scales = new Float64Array(1);
  #saved = new Float64Array(0);
  #states = 0;

  run(model: ChainModel, looks: readonly Look[]): void {
    const { states, reach, rows, farRedraw } = model;
    this.#states = states;
    if (this.scales.length <= looks.length) this.scales = new Float64Array(2 * looks.length + 1);
    if (this.#saved.length < looks.length * states) {
      this.#saved = new Float64Array(2 * looks.length * states);
    }
    const state = scratch(states, 2);
    for (let s = 0; s < states; s++) state[s] = rows[reach * states + s]!;
    this.scales[0] = 0;
    for (let index = 0; index < looks.length; index++) {
      const look = looks[index]!;
      if (index > 0) relax(state, rows, reach * states, farRedraw, look.at - looks[index - 1]!.at);
      this.scales[index + 1] = this.scales[index]! + weigh(state, look.likelihood, reach * states);
      for (let s = 0; s < states; s++) this.#saved[index * states + s] = state[s]!;
    }
  }

  /** Writes the state after the first `index` looks, at least one. */
  stateAfter(index: number, into: Float64Array): void {
    const from = (index - 1) * this.#states;
    for (let s = 0; s < this.#states; s++) into[s] = this.#saved[from + s]!;
  }
}

/**
 * Backward through the looks as if the event were over: the log-likelihood of those from a half
 * step on, given that the event was on the half step before it.
 */
class AfterPass {
  #betas = new Float64Array(0);
  #scales = new Float64Array(1);
  #model: ChainModel | null = null;
  #looks: readonly Look[] = [];

  run(model: ChainModel, looks: readonly Look[]): void {
    const { states, reach, rows, afterRedraw } = model;
    this.#model = model;
    this.#looks = looks;
    const far = reach * states;
    const row = (reach + 1) * states;
    const size = (looks.length + 1) * states;
    if (this.#betas.length < size) {
      this.#betas = new Float64Array(2 * size);
      this.#scales = new Float64Array(2 * looks.length + 2);
    }
    const betas = this.#betas;
    const scales = this.#scales;
    betas.fill(1, size - states, size);
    scales[looks.length] = 0;
    for (let index = looks.length - 1; index >= 0; index--) {
      const gap = index + 1 < looks.length ? looks[index + 1]!.at - looks[index]!.at : 0;
      const keep = (1 - afterRedraw) ** gap;
      const later = (index + 1) * states;
      let mean = 0;
      for (let s = 0; s < states; s++) mean += rows[far + s]! * betas[later + s]!;
      let largest = 0;
      const likelihood = looks[index]!.likelihood;
      for (let s = 0; s < states; s++) {
        const ahead = keep * betas[later + s]! + (1 - keep) * mean;
        const value = ahead * likelihood[row + s]!;
        betas[index * states + s] = value;
        if (value > largest) largest = value;
      }
      if (largest > 0) {
        for (let s = 0; s < states; s++) {
          betas[index * states + s] = betas[index * states + s]! / largest;
        }
      }
      scales[index] = scales[index + 1]! + Math.log(largest);
    }
  }

  /** Of the looks from `index` on, given the event on the half step before `start`. */
  logLikelihoodFrom(start: number, index: number): number {
    const model = this.#model;
    const look = this.#looks[index];
    if (model === null || look === undefined) return 0;
    const { states, reach, rows, afterStart, afterRedraw } = model;
    const keep = (1 - afterRedraw) ** (look.at - start);
    let sum = 0;
    for (let s = 0; s < states; s++) {
      const chance = keep * afterStart[s]! + (1 - keep) * rows[reach * states + s]!;
      sum += chance * this.#betas[index * states + s]!;
    }
    return Math.log(sum) + this.#scales[index]!;
  }

  /** Writes the state on half step `at`, given the event before `start` and the looks since. */
  stateAt(start: number, at: number, into: Float64Array): void {
    const model = this.#model;
    if (model === null) return;
    const { states, reach, rows, afterStart, afterRedraw } = model;
    into.set(afterStart);
    let now = start;
    for (let index = looksUpTo(this.#looks, start - 1); index < this.#looks.length; index++) {
      const look = this.#looks[index]!;
      relax(into, rows, reach * states, afterRedraw, look.at - now);
      now = look.at;
      weigh(into, look.likelihood, (reach + 1) * states);
    }
    relax(into, rows, reach * states, afterRedraw, at - now);
  }
}

const nothing = new Float64Array(0);

// Working space, kept between calls: a season runs tens of thousands of chains.
const far = new FarPass();
const after = new AfterPass();
const spaces = new Map<number, Float64Array[]>();

/** Working space of so many values; `which` tells those apart that are in use together. */
function scratch(size: number, which: 0 | 1 | 2): Float64Array {
  let ofSize = spaces.get(size);
  if (ofSize === undefined) {
    ofSize = [new Float64Array(size), new Float64Array(size), new Float64Array(size)];
    spaces.set(size, ofSize);
  }
  return ofSize[which]!;
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
