// What devices do to a sound: sampling rates, levels, cut-off treble, clipping, gain and noise suppression left on.
import { confounders } from '../../scripts/sound-sketch/confounders.ts';
import { drawScene } from '../../scripts/sound-sketch/scene.ts';
import { randomStream } from '../../src/core/numerics/random.ts';
import { Score, heard, scoreHead } from './score.ts';

type Treated = (samples: Float64Array, rate_hz: number) => Float64Array;

/** Follows the loudness, fast up and slowly down, and divides by it. */
function automaticGain(samples: Float64Array, rate_hz: number): Float64Array {
  let level = 0.01;
  return samples.map((sample) => {
    const height = Math.abs(sample);
    level += (height - level) / ((height > level ? 0.01 : 0.8) * rate_hz);
    return sample * Math.min(30, 0.1 / Math.max(level, 1e-4));
  });
}

/** A gate of 20 dB that opens where the sound of 10 ms stands 5 dB over the usual. */
function noiseGate(samples: Float64Array, rate_hz: number): Float64Array {
  const width = Math.round(0.01 * rate_hz);
  const powers = Array.from({ length: Math.ceil(samples.length / width) }, (_, piece) => {
    const own = samples.subarray(piece * width, (piece + 1) * width);
    return own.reduce((sum, sample) => sum + sample * sample, 0) / own.length;
  });
  const usual = [...powers].sort((a, b) => a - b)[Math.floor(0.4 * powers.length)]!;
  let gain = 1;
  return samples.map((sample, n) => {
    gain += 0.02 * ((powers[Math.floor(n / width)]! > 3 * usual ? 1 : 0.1) - gain);
    return sample * gain;
  });
}

function clipped(samples: Float64Array): Float64Array {
  const heights = samples.map(Math.abs).sort();
  const top = heights[Math.floor(0.998 * heights.length)]!;
  return samples.map((sample) => (Math.max(-top, Math.min(top, sample)) / top) * 0.999);
}

/** Two poles at 3.5 kHz, as in many a telephone. */
function dull(samples: Float64Array, rate_hz: number): Float64Array {
  const slope = 1 - Math.exp((-2 * Math.PI * 3500) / rate_hz);
  let [first, second] = [0, 0];
  return samples.map((sample) => {
    first += slope * (sample - first);
    second += slope * (first - second);
    return second;
  });
}

const in16Bits: Treated = (samples) =>
  samples.map((sample) => Math.round(sample * 32_768) / 32_768);

const treatments: readonly (readonly [string, number, number, Treated])[] = [
  ['16 kHz, -12 dBFS', 16_000, -12, in16Bits],
  ['22.05 kHz, -6 dBFS', 22_050, -6, in16Bits],
  ['44.1 kHz, -30 dBFS', 44_100, -30, in16Bits],
  ['48 kHz, -50 dBFS', 48_000, -50, in16Bits],
  ['nothing over 3.5 kHz', 44_100, -12, dull],
  ['clipped', 44_100, -6, clipped],
  ['automatic gain', 44_100, -12, automaticGain],
  ['noise gate of 20 dB', 44_100, -12, noiseGate],
];

/** Prints a line a treatment: 40 strokes a minute at 12 dB, hiss and surf, both instruments. */
export function devices(seed: number): void {
  console.log(`\ndevice                  ${scoreHead}  states, warnings`);
  for (const [name, rate_hz, peak_dbfs, treat] of treatments) {
    for (const background of ['hiss', 'surf'] as const) {
      const score = new Score();
      const said = new Set<string>();
      for (const instrument of ['open microphone', 'stethoscope'] as const) {
        const seconds = 30;
        const behind =
          background === 'hiss'
            ? null
            : confounders[background](rate_hz, seconds, randomStream(seed, background));
        const { samples, onsets_s } = drawScene({
          rate_hz,
          seconds,
          perMinute: 40,
          instrument,
          background: behind,
          snr_db: 12,
          peak_dbfs,
          seed: seed + said.size,
        });
        const reading = heard(treat(samples, rate_hz), rate_hz);
        score.add(reading, onsets_s);
        for (const word of [reading.state, ...reading.warnings]) said.add(word);
      }
      console.log(
        `${`${name}, ${background}`.padEnd(26)}${score.line.slice(2)}  ${[...said].join(', ')}`,
      );
    }
  }
}
