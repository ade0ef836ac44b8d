import FFT from 'fft.js';
import { analysisRate_hz } from './analysis-rate.ts';

/** Fundamentals of voices, Hz (common practice, no source). */
const lowestVoice_hz = 75;
const highestVoice_hz = 420;

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
  readonly #power: Float64Array;
  readonly #correlation: Float64Array;

  /** For frames of `length` samples, a power of two. */
  constructor(length: number) {
    this.#size = 2 * length;
    this.#fft = new FFT(this.#size);
    this.#input = new Float64Array(this.#size);
    this.#spectrum = new Float64Array(2 * this.#size);
    this.#power = new Float64Array(this.#size);
    this.#correlation = new Float64Array(2 * this.#size);
    this.#window = Float64Array.from(
      { length },
      (_, n) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (n + 0.5)) / length),
    );
    this.#transform(this.#window);
    this.#windowCorrelation = this.#correlate(0, analysisRate_hz / 2).slice();
  }

  /** `samples` must be as many as the constructor was told. */
  voicing(samples: Float64Array): Voicing {
    this.#transform(this.#window.map((weight, n) => weight * samples[n]!));
    return {
      whole: this.#highest(this.#correlate(0, analysisRate_hz / 2)),
      low: this.#highest(this.#correlate(...voiceBand_hz)),
    };
  }

  #highest(correlation: Float64Array): number {
    const energy = correlation[0]!;
    if (energy <= 0) return 0;
    const shortest = Math.floor(analysisRate_hz / highestVoice_hz);
    const longest = Math.ceil(analysisRate_hz / lowestVoice_hz);
    const own = this.#windowCorrelation;
    let best = 0;
    // A lag counts only as a peak: the slope of a slow rumble is no pitch.
    for (let lag = shortest; lag <= longest; lag++) {
      const here = correlation[lag]!;
      if (here < correlation[lag - 1]! || here < correlation[lag + 1]!) continue;
      best = Math.max(best, ((here / energy) * own[0]!) / own[lag]!);
    }
    return Math.min(1, best);
  }

  #transform(samples: Float64Array): void {
    this.#input.fill(0);
    this.#input.set(samples);
    this.#fft.realTransform(this.#spectrum, this.#input);
    this.#fft.completeSpectrum(this.#spectrum);
    for (let k = 0; k < this.#size; k++) {
      this.#power[k] = this.#spectrum[2 * k]! ** 2 + this.#spectrum[2 * k + 1]! ** 2;
    }
  }

  /** Autocorrelation by lag of what lies in a band, through the power spectrum. */
  #correlate(from_hz: number, to_hz: number): Float64Array {
    const from = (from_hz * this.#size) / analysisRate_hz;
    const to = (to_hz * this.#size) / analysisRate_hz;
    for (let k = 0; k < this.#size; k++) {
      const bin = Math.min(k, this.#size - k);
      this.#spectrum[2 * k] = bin >= from && bin <= to ? this.#power[k]! : 0;
      this.#spectrum[2 * k + 1] = 0;
    }
    this.#fft.inverseTransform(this.#correlation, this.#spectrum);
    for (let k = 0; k < this.#size; k++) this.#correlation[k] = this.#correlation[2 * k]!;
    return this.#correlation;
  }
}
