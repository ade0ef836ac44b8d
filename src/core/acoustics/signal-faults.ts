/** What is wrong with the signal itself. */
export type SignalFault = 'silence' | 'dead' | 'clipped' | 'gated';

/** Below this nothing but rounding is left (-86 dB of full scale). */
const dead_rms = 5e-5;
/** Clipped: runs of at least this many equal samples at the very top; one such run in two seconds (G). */
const flatRun = 3;
const topShare = 0.985;
const runsPerSecond = 0.5;
/** Gated: this much of the time exactly nothing between sounds, in runs of at least 4 ms. */
const zeroRun_s = 0.004;
const gatedShare = 0.1;

/** Watches the raw samples, at the rate of the microphone. */
export class SignalWatch {
  readonly #rate_hz: number;
  #count = 0;
  #sum = 0;
  #squares = 0;
  #top = 0;
  #flat = 0;
  #flatRuns = 0;
  #zeros = 0;
  #zeroRun = 0;
  #before = NaN;

  constructor(rate_hz: number) {
    this.#rate_hz = rate_hz;
  }

  push(samples: Float32Array): void {
    const shortest = zeroRun_s * this.#rate_hz;
    for (const sample of samples) {
      this.#sum += sample;
      this.#squares += sample * sample;
      this.#count++;
      const height = Math.abs(sample);
      if (height > this.#top / topShare) this.#flatRuns = 0;
      if (height > this.#top) this.#top = height;
      if (sample === this.#before && height >= topShare * this.#top && height > 0.02) this.#flat++;
      else this.#flat = 1;
      if (this.#flat === flatRun) this.#flatRuns++;
      if (sample === 0) this.#zeroRun++;
      else {
        if (this.#zeroRun >= shortest) this.#zeros += this.#zeroRun;
        this.#zeroRun = 0;
      }
      this.#before = sample;
    }
  }

  /** In the order in which they should be said; at most one of silence and dead. */
  faults(): readonly SignalFault[] {
    if (this.#count === 0 || this.#top === 0) return ['silence'];
    const mean = this.#sum / this.#count;
    const rms = Math.sqrt(Math.max(0, this.#squares / this.#count - mean * mean));
    if (rms < dead_rms) return ['dead'];
    const faults: SignalFault[] = [];
    const seconds = this.#count / this.#rate_hz;
    if (this.#flatRuns >= Math.max(2, runsPerSecond * seconds)) faults.push('clipped');
    if (this.#zeros > gatedShare * this.#count) faults.push('gated');
    return faults;
  }
}
