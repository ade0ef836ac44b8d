import FFT from 'fft.js';
import { frameHop, frameSize } from './analysis-rate.ts';

/**
 * Cuts a stream into overlapping frames under a Hann window and gives the power of each bin, scaled
 * so that white noise of variance 1 has mean power 1 in every bin. The array is used again.
 */
export class ShortFrames {
  readonly #fft = new FFT(frameSize);
  readonly #spectrum = new Float64Array(2 * frameSize);
  readonly #input = new Float64Array(frameSize);
  readonly #power = new Float64Array(frameSize / 2);
  readonly #held = new Float64Array(frameSize);
  #filled = frameSize - frameHop;

  /** Calls back for every frame that the samples complete, with its power and its samples. */
  push(samples: Float64Array, frame: (power: Float64Array, samples: Float64Array) => void): void {
    const held = this.#held;
    for (let at = 0; at < samples.length;) {
      const take = Math.min(frameSize - this.#filled, samples.length - at);
      held.set(samples.subarray(at, at + take), this.#filled);
      at += take;
      this.#filled += take;
      if (this.#filled < frameSize) return;
      this.#transform();
      frame(this.#power, held);
      held.copyWithin(0, frameHop);
      this.#filled = frameSize - frameHop;
    }
  }

  #transform(): void {
    const { length } = this.#power;
    for (let n = 0; n < frameSize; n++) this.#input[n] = this.#held[n]! * hann[n]!;
    this.#fft.realTransform(this.#spectrum, this.#input);
    for (let bin = 0; bin < length; bin++) {
      const re = this.#spectrum[2 * bin]!;
      const im = this.#spectrum[2 * bin + 1]!;
      this.#power[bin] = (re * re + im * im) / windowPower;
    }
  }
}

const hann = Float64Array.from(
  { length: frameSize },
  (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * n) / frameSize),
);
const windowPower = hann.reduce((sum, weight) => sum + weight * weight, 0);
