import { decibels } from './decibels.ts';
import { type LongFeatures, longFeatures, longFrame } from './features.ts';
import { Pitch, type Voicing } from './pitch.ts';

/** Cuts a stream into long frames that overlap by half: for voices, and for the level of the whole. */
export class LongFrames {
  readonly #pitch = new Pitch(longFrame);
  readonly #held = new Float64Array(longFrame);
  #filled = 0;
  #isOther = false;
  #voicing: Voicing = { whole: 0, low: 0 };
  #level_dbfs = -140;

  /** How much the last long frame repeats itself. */
  get voicing(): Voicing {
    return this.#voicing;
  }

  get level_dbfs(): number {
    return this.#level_dbfs;
  }

  /**
   * Takes samples, as many as half a long frame holds or a whole part of it. Calls back for every other
   * long frame: for its features those that do not overlap are enough.
   */
  push(samples: Float64Array, found: (features: LongFeatures | null) => void): void {
    this.#held.set(samples, this.#filled);
    this.#filled += samples.length;
    if (this.#filled < longFrame) return;
    this.#voicing = this.#pitch.voicing(this.#held);
    this.#isOther = !this.#isOther;
    if (this.#isOther) {
      const features = longFeatures(Float32Array.from(this.#held));
      this.#level_dbfs = decibels((features?.rms ?? 0) ** 2);
      found(features);
    }
    this.#held.copyWithin(0, longFrame / 2);
    this.#filled = longFrame / 2;
  }
}
