import { frameSize } from './analysis-rate.ts';
import { bandCount } from './bands.ts';
import type { Voicing } from './pitch.ts';

/** Frames remembered: 16 s, a little more than the slowest judgement looks back. */
const remembered = 2048;
/** Frames whose whole spectrum is remembered. */
const spectraKept = 256;

/** What is kept of one short frame. */
export interface HeardFrame {
  /** Mean level of the scratching bands over their floors, dB. */
  readonly level_db: number;
  /** The same of the bands below. */
  readonly low_db: number;
  /** Power above some 800 Hz, decibels of full scale. */
  readonly upper_db: number;
  /** Power of all bands together, the same. */
  readonly total_db: number;
}

/** The last seconds frame by frame, by the number of the frame. Older ones read as the oldest kept. */
export class HeardFrames {
  readonly #level = new Float32Array(remembered);
  readonly #low = new Float32Array(remembered);
  readonly #upper = new Float32Array(remembered);
  readonly #total = new Float32Array(remembered);
  readonly #voicing = new Float32Array(remembered);
  readonly #voice = new Float32Array(remembered);
  readonly #powers = new Float32Array(remembered * bandCount);
  readonly #floors = new Float32Array(remembered * bandCount);
  readonly #spectra = Array.from({ length: spectraKept }, () => new Float64Array(frameSize / 2));
  #count = 0;

  get count(): number {
    return this.#count;
  }

  /** `spectrum` by bin, `powers` and `floor_db` by band; `voicing` as `Pitch` gives it. */
  add(
    frame: HeardFrame,
    voicing: Voicing,
    spectrum: Float64Array,
    powers: Float64Array,
    floor_db: Float64Array,
  ): void {
    this.#spectra[this.#count % spectraKept]!.set(spectrum);
    const at = this.#count % remembered;
    this.#level[at] = frame.level_db;
    this.#low[at] = frame.low_db;
    this.#upper[at] = frame.upper_db;
    this.#total[at] = frame.total_db;
    this.#voicing[at] = voicing.whole;
    this.#voice[at] = voicing.low;
    this.#powers.set(powers, at * bandCount);
    this.#floors.set(floor_db, at * bandCount);
    this.#count++;
  }

  /** Power by bin; only of the last two seconds. */
  spectrum(frame: number): Float64Array {
    const oldest = Math.max(0, this.#count - spectraKept);
    const at = Math.max(oldest, Math.min(this.#count - 1, frame));
    return this.#spectra[at % spectraKept]!;
  }

  level_db(frame: number): number {
    return this.#level[this.#at(frame)]!;
  }

  upper_db(frame: number): number {
    return this.#upper[this.#at(frame)]!;
  }

  total_db(frame: number): number {
    return this.#total[this.#at(frame)]!;
  }

  low_db(frame: number): number {
    return this.#low[this.#at(frame)]!;
  }

  /** Of the long frame that ended last before the end of this one. */
  voicing(frame: number): number {
    return this.#voicing[this.#at(frame)]!;
  }

  /** The same of the band of a voice's partials. */
  voice(frame: number): number {
    return this.#voice[this.#at(frame)]!;
  }

  power(frame: number, band: number): number {
    return this.#powers[this.#at(frame) * bandCount + band]!;
  }

  floor_db(frame: number, band: number): number {
    return this.#floors[this.#at(frame) * bandCount + band]!;
  }

  #at(frame: number): number {
    const last = this.#count - 1;
    return Math.max(0, Math.min(last, Math.max(frame, last - remembered + 1))) % remembered;
  }
}
