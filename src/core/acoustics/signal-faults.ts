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
/**
 * Or so much of it hardly more than rounding noise of 16 bits, in longer runs, though there are sounds
 * as loud as this: no microphone in the field has a floor 60 dB below its sounds (G).
 */
const rounding = 1.01 / 2 ** 15;
const roundingRun_s = 0.02;
const roundingShare = 0.3;
const loudEnough = 0.05;

/** Watches the raw samples, at the rate of the microphone. */
export class SignalWatch {
  readonly #rate_hz: number;
  #count = 0;
  #sum = 0;
  #squares = 0;
  #top = 0;
  #flat = 0;
  #flatRuns = 0;
  readonly #zeros: Runs;
  readonly #rounding: Runs;
  #before = NaN;

  constructor(rate_hz: number) {
    this.#rate_hz = rate_hz;
    this.#zeros = new Runs(zeroRun_s * rate_hz);
    this.#rounding = new Runs(roundingRun_s * rate_hz);
  }

  push(samples: Float32Array): void {
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
      this.#zeros.add(sample === 0);
      this.#rounding.add(height <= rounding);
      this.#before = sample;
    }
  }

  /**
   * In the order in which they should be said; at most one of silence and dead. `isGated`: steps of the
   * gain were heard besides.
   */
  faults(isGated: boolean): readonly SignalFault[] {
    if (this.#count === 0 || this.#top === 0) return ['silence'];
    const mean = this.#sum / this.#count;
    const rms = Math.sqrt(Math.max(0, this.#squares / this.#count - mean * mean));
    if (rms < dead_rms) return ['dead'];
    const faults: SignalFault[] = [];
    const seconds = this.#count / this.#rate_hz;
    if (this.#flatRuns >= Math.max(2, runsPerSecond * seconds)) faults.push('clipped');
    if (isGated || this.#isSilenced) faults.push('gated');
    return faults;
  }

  get #isSilenced(): boolean {
    if (this.#zeros.length > gatedShare * this.#count) return true;
    return this.#top > loudEnough && this.#rounding.length > roundingShare * this.#count;
  }
}

/** Adds up the lengths of runs, samples, leaving out those shorter than some. */
class Runs {
  readonly #shortest: number;
  #run = 0;
  length = 0;

  constructor(shortest: number) {
    this.#shortest = shortest;
  }

  add(isOne: boolean): void {
    if (isOne) {
      this.#run++;
      return;
    }
    if (this.#run >= this.#shortest) this.length += this.#run;
    this.#run = 0;
  }
}
