import { type Random, randomStream } from '../../src/core/numerics/random.ts';
import { openMicrophone, stethoscope } from './filters.ts';
import { type Sketch, rmsOf, rush, scratch, slide, toRms } from './grains.ts';

export interface Scene {
  readonly rate_hz: number;
  readonly seconds: number;
  /** Scratches and slides a minute, at random moments but not quite on top of each other. */
  readonly perMinute: number;
  /** A rush without pause instead. */
  readonly rushing?: boolean;
  readonly instrument: 'open microphone' | 'stethoscope';
  /** What is heard besides, of any loudness; null for the microphone's own floor alone. */
  readonly background: Float64Array | null;
  /**
   * Root mean square of the events over their own lengths against that of the background, dB, over
   * the whole band; of the hiss where there is no background.
   */
  readonly snr_db: number;
  /** Of the loudest sample, against full scale. */
  readonly peak_dbfs: number;
  readonly seed: number;
}

/** Strokes of one nest do not start closer than this, less when they are many. */
const apart_s = 0.18;

/** A listening with known onsets. The hiss of the microphone lies 14 dB below any background. */
export function drawScene(scene: Scene): Sketch {
  const { rate_hz, seconds, seed } = scene;
  const random = randomStream(seed, 'scene');
  const length = Math.ceil(seconds * rate_hz);
  const onsets_s = scene.rushing === true ? [] : onsetsOf(scene, random);
  const events = new Float64Array(length);
  if (scene.rushing === true) events.set(rush(rate_hz, seconds, random).subarray(0, length));
  else addEvents(events, rate_hz, onsets_s, random);
  const heard = through(events, scene);
  const gain = 10 ** (scene.snr_db / 20);
  const hiss = Float64Array.from({ length }, () => random.normal(0, 1));
  const behind = scene.background === null ? null : toRms(scene.background, 1);
  // Filters take a little of the events; the ratio is meant before them for strokes of rms 1.
  const passed = scene.rushing === true ? rmsOf(heard) : 1;
  const sum = heard.map((sample, n) => {
    const besides = behind === null ? hiss[n]! : behind[n % behind.length]! + 0.2 * hiss[n]!;
    return (gain * sample) / passed + besides;
  });
  return { samples: toPeak(sum, scene.peak_dbfs), onsets_s };
}

function onsetsOf({ perMinute, seconds }: Scene, random: Random): number[] {
  const onsets: number[] = [];
  const mean_s = 60 / perMinute;
  const least_s = Math.min(apart_s, 0.35 * mean_s);
  const wait = (): number => least_s + random.gamma(mean_s - least_s, 1);
  for (let at = 0.3 + wait(); at < seconds - 0.7 && perMinute > 0; at += wait()) onsets.push(at);
  return onsets;
}

function addEvents(
  into: Float64Array,
  rate_hz: number,
  onsets_s: readonly number[],
  random: Random,
): void {
  onsets_s.forEach((at_s, index) => {
    const room_s = (onsets_s[index + 1] ?? Infinity) - at_s;
    const isSlide = room_s > 0.9 && random.chance(0.15);
    const sound = isSlide ? slide(rate_hz, random) : scratch(rate_hz, random);
    const gain = 10 ** (random.normal(0, 2) / 20);
    const first = Math.round(at_s * rate_hz);
    for (let n = 0; n < sound.length && first + n < into.length; n++) {
      into[first + n] = into[first + n]! + gain * sound[n]!;
    }
  });
}

function through(samples: Float64Array, { rate_hz, instrument }: Scene): Float64Array {
  return instrument === 'stethoscope'
    ? stethoscope(samples, rate_hz)
    : openMicrophone(samples, rate_hz);
}

function toPeak(samples: Float64Array, peak_dbfs: number): Float64Array {
  let highest = 0;
  for (const sample of samples) highest = Math.max(highest, Math.abs(sample));
  const gain = highest === 0 ? 0 : 10 ** (peak_dbfs / 20) / highest;
  return samples.map((sample) => sample * gain);
}
