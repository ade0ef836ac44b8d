import FFT from 'fft.js';
import { analysisRate_hz } from './analysis-rate.ts';

/** Fundamentals of voices, Hz (common practice, no source). */
const lowestVoice_hz = 75;
const highestVoice_hz = 420;
const shortestLag = Math.floor(analysisRate_hz / highestVoice_hz);
const longestLag = Math.ceil(analysisRate_hz / lowestVoice_hz);

/** Most partials of voices lie here; the trills of insects lie above, the ring of a thump below. */
const voiceBand_hz = [200, 1500] as const;

/** How much a frame repeats itself at the pitch of a voice, 0 to 1. */
export interface Voicing {
  /** The whole sound. */
  readonly whole: number;
  /** Only what lies between 200 Hz and 1.5 kHz. */
  readonly low: number;
}

/**
 * The highest normalised autocorrelation at the lags of voices, divided by that of the window as in
 * Boersma 1993 (from memory).
 */
export class Pitch {
  readonly #size: number;
  readonly #fft;
  readonly #window: Float64Array;
  readonly #windowCorrelation: Float64Array;
  readonly #input: Float64Array;
  readonly #spectrum: Float64Array;
  readonly #correlation: Float64Array;
  /** By lag, up to a little more than the longest looked at. */
  readonly #whole: Float64Array;
  readonly #low: Float64Array;

  /** For frames of `length` samples, a power of two. */
  constructor(length: number) {
    this.#size = 2 * length;
    this.#fft = new FFT(this.#size);
    this.#input = new Float64Array(this.#size);
    this.#spectrum = new Float64Array(2 * this.#size);
    this.#correlation = new Float64Array(2 * this.#size);
    this.#whole = new Float64Array(longestLag + 2);
    this.#low = new Float64Array(longestLag + 2);
    this.#window = Float64Array.from(
      { length },
      (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / length),
    );
    this.#transform(new Float64Array(length).fill(1));
    this.#correlate();
    this.#windowCorrelation = this.#whole.slice();
  }

  /** `samples` must be as many as the constructor was told. */
  voicing(samples: Float64Array): Voicing {
    this.#transform(samples);
    this.#correlate();
    return { whole: this.#highest(this.#whole), low: this.#highest(this.#low) };
  }

  #highest(correlation: Float64Array): number {
    const energy = correlation[0]!;
    if (energy <= 0) return 0;
    const own = this.#windowCorrelation;
    let best = 0;
    // A lag counts only as a peak: the slope of a slow rumble is no pitch.
    for (let lag = shortestLag; lag <= longestLag; lag++) {
      const here = correlation[lag]!;
      if (here < correlation[lag - 1]! || here < correlation[lag + 1]!) continue;
      best = Math.max(best, ((here / energy) * own[0]!) / own[lag]!);
    }
    return Math.min(1, best);
  }

  #transform(samples: Float64Array): void {
    for (let n = 0; n < samples.length; n++) this.#input[n] = samples[n]! * this.#window[n]!;
    this.#fft.realTransform(this.#spectrum, this.#input);
  }

  /**
   * Autocorrelations by lag, through the power spectrum: of the whole, and of the band of voices. Both
   * are real and even, so one transform gives them as its real and its imaginary part.
   */
  #correlate(): void {
    const spectrum = this.#spectrum;
    const half = this.#size / 2;
    const from = (voiceBand_hz[0] * this.#size) / analysisRate_hz;
    const to = (voiceBand_hz[1] * this.#size) / analysisRate_hz;
    for (let k = 0; k <= half; k++) {
      const power = spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
      const inBand = k >= from && k <= to ? power : 0;
      const mirror = (this.#size - k) % this.#size;
      spectrum[2 * k] = power;
      spectrum[2 * k + 1] = inBand;
      spectrum[2 * mirror] = power;
      spectrum[2 * mirror + 1] = inBand;
    }
    this.#fft.transform(this.#correlation, spectrum);
    for (let lag = 0; lag < this.#whole.length; lag++) {
      this.#whole[lag] = this.#correlation[2 * lag]!;
      this.#low[lag] = this.#correlation[2 * lag + 1]!;
    }
  }
}
