import type { Random } from '../../src/core/numerics/random.ts';

/** A sound and when, in seconds, its events begin. */
export interface Sketch {
  readonly samples: Float64Array;
  readonly onsets_s: readonly number[];
}

/**
 * One grain of sand struck by another or by a claw: a damped ring of 0.4-3 ms at 500-5500 Hz (G; the
 * loudness of a scratch has not been published).
 */
export function addGrain(
  into: Float64Array,
  rate_hz: number,
  at_s: number,
  gain: number,
  random: Random,
): void {
  const ring_hz = Math.min(0.45 * rate_hz, 500 * 11 ** random.uniform());
  const decay_s = random.between(0.0004, 0.003);
  const phase = random.between(0, 2 * Math.PI);
  const first = Math.round(at_s * rate_hz);
  const length = Math.ceil(decay_s * 6 * rate_hz);
  for (let n = 0; n < length && first + n < into.length; n++) {
    const t_s = n / rate_hz;
    const ring = Math.sin(2 * Math.PI * ring_hz * t_s + phase);
    into[first + n] = into[first + n]! + gain * Math.exp(-t_s / decay_s) * ring;
  }
}

/** One stroke of a claw: 10-60 grains within 25-130 ms. Root mean square 1 over its length. */
export function scratch(rate_hz: number, random: Random): Float64Array {
  const length_s = random.between(0.025, 0.13);
  return stroke(rate_hz, random, length_s, random.between(250, 700) * length_s + 6, 0.35);
}

/** A small fall of sand: grains that start within some ms and thin out over 0.15-0.6 s. */
export function slide(rate_hz: number, random: Random): Float64Array {
  const length_s = random.between(0.15, 0.6);
  return stroke(rate_hz, random, length_s, random.between(500, 1500) * length_s, 0.12);
}

function stroke(
  rate_hz: number,
  random: Random,
  length_s: number,
  grains: number,
  swell: number,
): Float64Array {
  const samples = new Float64Array(Math.ceil((length_s + 0.01) * rate_hz));
  for (let grain = 0; grain < grains; grain++) {
    const along = grain === 0 ? 0 : random.uniform();
    const rise = Math.min(1, along / swell + 0.35);
    const fall = Math.min(1, (1 - along) / (1 - swell));
    const gain = Math.exp(random.normal(0, 0.7)) * rise * fall;
    addGrain(samples, rate_hz, along * length_s, gain, random);
  }
  return toRms(samples, 1);
}

/** The rush near the end: grains without a pause, swelling and ebbing over a second or so. */
export function rush(rate_hz: number, seconds: number, random: Random): Float64Array {
  const samples = new Float64Array(Math.ceil(seconds * rate_hz));
  const step_s = 0.01;
  let swell = 0;
  for (let at_s = 0; at_s < seconds; at_s += step_s) {
    swell += (-swell * step_s) / 0.6 + random.normal(0, 0.9 * Math.sqrt(2 * (step_s / 0.6)));
    const grains = random.poisson(900 * step_s * Math.exp(0.8 * swell));
    for (let grain = 0; grain < grains; grain++) {
      const gain = Math.exp(random.normal(0, 0.7) + 0.25 * swell);
      addGrain(samples, rate_hz, at_s + step_s * random.uniform(), gain, random);
    }
  }
  return toRms(samples, 1);
}

/** The same sound with this root mean square; silence stays silence. */
export function toRms(samples: Float64Array, rms: number): Float64Array {
  const found = rmsOf(samples);
  return found === 0 ? samples : samples.map((sample) => (sample * rms) / found);
}

export function rmsOf(samples: Float64Array): number {
  let sum = 0;
  for (const sample of samples) sum += sample * sample;
  return Math.sqrt(sum / Math.max(1, samples.length));
}
