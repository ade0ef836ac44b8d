import { analysisRate_hz } from './analysis-rate.ts';

/** Lowest and highest sampling rate that is taken. */
export const lowestRate_hz = 8_000;
export const highestRate_hz = 192_000;

/** Zero crossings of the sinc on each side: what folds into the bands looked at stays below -60 dB (a test). */
const crossings = 8;
/** Places between two input samples for which the kernel is tabulated. */
const phases = 64;
/** Share of the band that is kept below the lower of the two Nyquist frequencies. */
const passShare = 0.9;

/**
 * Turns a stream of samples into one at `analysisRate_hz`: a windowed sinc (Hann), cut off below
 * half of the lower rate, so that nothing folds down. Memory does not depend on the length.
 */
export class Resampler {
  readonly #step: number;
  readonly #reach: number;
  readonly #kernel: Float64Array;
  #held = new Float64Array(0);
  /** Input samples that have left `#held` at its front. */
  #gone = 0;
  #made = 0;

  /** Throws a RangeError for a rate outside `lowestRate_hz` .. `highestRate_hz`. */
  constructor(rate_hz: number) {
    if (!(rate_hz >= lowestRate_hz && rate_hz <= highestRate_hz)) {
      throw new RangeError(
        `The sampling rate is ${rate_hz}; expected ${lowestRate_hz} to ${highestRate_hz} a second.`,
      );
    }
    this.#step = rate_hz / analysisRate_hz;
    const cut = passShare * Math.min(1, 1 / this.#step);
    this.#reach = rate_hz === analysisRate_hz ? 0 : Math.ceil(crossings / cut);
    this.#kernel = kernelTable(this.#reach, cut);
    this.#held = new Float64Array(this.#reach);
    this.#gone = -this.#reach;
  }

  /** The samples at the analysis rate that these make possible; a few wait for the next call. */
  push(input: Float32Array): Float64Array {
    if (this.#reach === 0) return Float64Array.from(input);
    const held = new Float64Array(this.#held.length + input.length);
    held.set(this.#held);
    held.set(input, this.#held.length);
    const end = this.#gone + held.length - this.#reach;
    const count = Math.max(0, Math.ceil(end / this.#step - this.#made));
    const output = new Float64Array(count);
    const width = 2 * this.#reach;
    for (let k = 0; k < count; k++) {
      const position = (this.#made + k) * this.#step;
      const base = Math.floor(position);
      const row = Math.round((position - base) * phases) * width;
      const first = base - this.#reach + 1 - this.#gone;
      output[k] = weighted(held, first, this.#kernel, row, width);
    }
    this.#made += count;
    const keepFrom = Math.max(0, Math.floor(this.#made * this.#step) - this.#reach - this.#gone);
    this.#held = held.slice(keepFrom);
    this.#gone += keepFrom;
    return output;
  }
}

/** Sum of `width` samples, an even number, by their weights. */
function weighted(
  samples: Float64Array,
  first: number,
  weights: Float64Array,
  row: number,
  width: number,
): number {
  // Two sums side by side: the processor need not wait for one addition to begin the next.
  let [even, odd] = [0, 0];
  for (let tap = 0; tap < width; tap += 2) {
    even += samples[first + tap]! * weights[row + tap]!;
    odd += samples[first + tap + 1]! * weights[row + tap + 1]!;
  }
  return even + odd;
}

/** Rows by phase 0 .. `phases`, each of 2 x reach weights that sum to one. */
function kernelTable(reach: number, cut: number): Float64Array {
  const width = 2 * reach;
  const table = new Float64Array((phases + 1) * width);
  for (let phase = 0; phase <= phases; phase++) {
    const row = phase * width;
    let sum = 0;
    for (let tap = 0; tap < width; tap++) {
      const away = tap - reach + 1 - phase / phases;
      const x = Math.PI * cut * away;
      const sinc = x === 0 ? 1 : Math.sin(x) / x;
      const window = Math.abs(away) < reach ? 0.5 + 0.5 * Math.cos((Math.PI * away) / reach) : 0;
      table[row + tap] = sinc * window;
      sum += sinc * window;
    }
    for (let tap = 0; tap < width; tap++) table[row + tap] = table[row + tap]! / sum;
  }
  return table;
}
