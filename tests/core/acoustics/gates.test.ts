import { describe, expect, test } from 'vitest';
import { fixtureSound, heard } from '../../builders/sounds.ts';
import { confounders } from '../../../scripts/sound-sketch/confounders.ts';
import { drawScene } from '../../../scripts/sound-sketch/scene.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';

const rate_hz = 16_000;

function scene(background: 'surf' | 'wind' | 'speech'): Float64Array {
  const behind = confounders[background](rate_hz, 25, randomStream(21, background));
  return drawScene({
    rate_hz,
    seconds: 25,
    perMinute: 40,
    instrument: 'open microphone',
    background: behind,
    snr_db: 12,
    peak_dbfs: -12,
    seed: 5,
  }).samples;
}

/** Noise suppression: where 10 ms are less than 5 dB over the usual, the gain falls, after holding for a while. */
function gated(samples: Float64Array, closed: number, hold_s: number): Float64Array {
  const width = Math.round(0.01 * rate_hz);
  const powers = Array.from({ length: Math.ceil(samples.length / width) }, (_, piece) => {
    const own = samples.subarray(piece * width, (piece + 1) * width);
    return own.reduce((sum, sample) => sum + sample * sample, 0) / own.length;
  });
  const usual = [...powers].sort((a, b) => a - b)[Math.floor(0.4 * powers.length)]!;
  let [gain, held] = [1, 0];
  return samples.map((sample, n) => {
    held = powers[Math.floor(n / width)]! > 3 * usual ? hold_s * rate_hz : held - 1;
    gain += 0.02 * ((held >= 0 ? 1 : closed) - gain);
    return sample * gain;
  });
}

const warnings = (samples: Float64Array): readonly string[] =>
  heard(Float32Array.from(samples), rate_hz).warnings;

describe('noise suppression that opens and closes on the noise itself', () => {
  test.each(['surf', 'wind'] as const)(
    'is noticed over %s, and not where there is none',
    (over) => {
      expect(warnings(scene(over))).not.toContain('gated');
      expect(warnings(gated(scene(over), 0.1, 0))).toContain('gated');
      expect(warnings(gated(scene(over), 0.1, 0.1))).toContain('gated');
    },
  );

  test('talk, with its own pauses, is not taken for it', () => {
    expect(warnings(scene('speech'))).not.toContain('gated');
  });
});

describe('a floor that falls to nothing between sounds', () => {
  const { samples } = fixtureSound('steady.wav');
  /** Rounding to 16 bits with a little noise in it, as converters give it. */
  function rounded(sound: ArrayLike<number>): Float64Array {
    const random = randomStream(2, 'dither');
    return Float64Array.from(sound, (sample) => {
      return Math.round(sample * 2 ** 15 + random.between(-0.5, 0.5)) / 2 ** 15;
    });
  }
  const silenced = samples.map((sample, n) => {
    const near = Math.max(...samples.subarray(Math.max(0, n - 40), n + 40).map(Math.abs));
    return near > 0.05 ? sample : 0;
  });

  test('is said though it flickers in the last bit', () => {
    expect(warnings(rounded(silenced))).toContain('gated');
  });

  test('a faint recording whose floor lies in the last bits is not called so', () => {
    const faint = rounded(samples.map((sample) => sample * 0.012));
    expect(warnings(faint)).not.toContain('gated');
  });
});
