import { analysisRate_hz } from './analysis-rate.ts';
import { decibels } from './decibels.ts';

/** Samples of one grain of time: 2 ms. */
export const grain = 32;
/** Grains remembered: two seconds. */
const grainsKept = 1024;
/** Grains in a moment (64 ms), moments in a block (256 ms). */
const grainsInMoment = 32;
const momentsInBlock = 4;
/** Seconds of a block. */
export const block_s = (grain * grainsInMoment * momentsInBlock) / analysisRate_hz;
/** Blocks looked back on: some 8 s. */
const blocksKept = 32;
/** Below this the ear of a telephone hears wind and handling, not sand. */
const highPass_hz = 500;

/** How restless the sound of the last eight seconds is, on three scales of time; decibels. */
export interface Texture {
  /** Spread of the level from 2 ms to 2 ms in the quieter blocks: about 1.2 for smooth noise, more for grains. */
  readonly fine_db: number;
  /** Spread from 64 ms to 64 ms in the quieter blocks. */
  readonly clump_db: number;
  /** Spread from quarter second to quarter second. */
  readonly slow_db: number;
}

/** Measures the texture block by block, above 500 Hz. */
export class TextureMeter {
  readonly #slope = 1 - Math.exp((-2 * Math.PI * highPass_hz) / analysisRate_hz);
  #low = 0;
  #lower = 0;
  #energy = 0;
  #inGrain = 0;
  #grains: number[] = [];
  #moments: number[] = [];
  #block: number[] = [];
  readonly #recent = new Float64Array(grainsKept);
  #grainCount = 0;
  readonly #fine: number[] = [];
  readonly #clumps: number[] = [];
  readonly #levels: number[] = [];

  /** Calls back for every block that is complete, once two seconds were heard. */
  push(samples: Float64Array, found: (texture: Texture) => void): void {
    for (const sample of samples) {
      // Two one-pole high-pass filters.
      this.#low += this.#slope * (sample - this.#low);
      const high = sample - this.#low;
      this.#lower += this.#slope * (high - this.#lower);
      this.#energy += (high - this.#lower) ** 2;
      if (++this.#inGrain < grain) continue;
      this.#recent[this.#grainCount++ % grainsKept] = this.#energy / grain;
      this.#block.push(this.#energy / grain);
      this.#grains.push(this.#energy / grain);
      this.#energy = 0;
      this.#inGrain = 0;
      if (this.#grains.length < grainsInMoment) continue;
      this.#moments.push(mean(this.#grains));
      this.#grains = [];
      if (this.#moments.length < momentsInBlock) continue;
      this.#endBlock();
      if (this.#fine.length >= 8) found(this.#texture());
    }
  }

  /** Power of some grains, by their number from the start; zero where none is remembered. */
  grains(from: number, to: number): Float64Array {
    const found = new Float64Array(Math.max(0, to - from));
    const oldest = Math.max(0, this.#grainCount - grainsKept);
    for (let at = Math.max(from, oldest); at < Math.min(to, this.#grainCount); at++) {
      found[at - from] = this.#recent[at % grainsKept]!;
    }
    return found;
  }

  #endBlock(): void {
    keep(this.#fine, spread(this.#block.map(decibels)));
    keep(this.#clumps, spread(this.#moments.map(decibels)));
    keep(this.#levels, decibels(mean(this.#moments)));
    this.#block = [];
    this.#moments = [];
  }

  #texture(): Texture {
    return {
      fine_db: quantileOf(this.#fine, 0.2),
      clump_db: quantileOf(this.#clumps, 0.3),
      slow_db: spread(this.#levels),
    };
  }
}

function keep(list: number[], value: number): void {
  list.push(value);
  if (list.length > blocksKept) list.shift();
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function spread(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

/** The value below which this share of the values lies. Throws when there are none. */
export function quantileOf(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const found = sorted[Math.floor(share * (sorted.length - 1))];
  if (found === undefined) throw new RangeError('No quantile of nothing.');
  return found;
}
