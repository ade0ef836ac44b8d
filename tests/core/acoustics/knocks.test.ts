import { describe, expect, test } from 'vitest';
import { heard } from '../../builders/sounds.ts';
import { scratch } from '../../../scripts/sound-sketch/grains.ts';
import { type Random, randomStream } from '../../../src/core/numerics/random.ts';

const rate_hz = 16_000;
const seconds = 25;

/** Sounds at the moments at which somebody types: in bursts, unevenly. */
function typed(sound: (random: Random) => Float64Array): Float32Array {
  const random = randomStream(12, 'typing');
  const samples = Float32Array.from({ length: seconds * rate_hz }, () => random.normal(0, 0.004));
  for (let at_s = 1; at_s < seconds - 1;) {
    const own = sound(random);
    const first = Math.round(at_s * rate_hz);
    own.forEach((sample, n) => (samples[first + n] = (samples[first + n] ?? 0) + 0.1 * sample));
    at_s += 0.45 + random.gamma(0.35, 1) + (random.chance(0.2) ? random.between(0.5, 2) : 0);
  }
  return samples;
}

/** A blow of noise, and what it sets ringing: some tones that die away together. */
function struck(decay_s: number, tones: number): (random: Random) => Float64Array {
  return (random) => {
    const pitches_hz = Array.from({ length: tones }, () => random.between(900, 5000));
    return Float64Array.from({ length: Math.round(7 * decay_s * rate_hz) }, (_, n) => {
      const t_s = n / rate_hz;
      const ring = pitches_hz.reduce((sum, hz) => sum + Math.sin(2 * Math.PI * hz * t_s), 0);
      const blow = 3 * random.normal(0, 1) * Math.exp(-t_s / 0.002);
      return blow + (ring / Math.sqrt(tones)) * Math.exp(-t_s / decay_s);
    });
  };
}

describe('things that are struck', () => {
  test.each([
    ['keys', struck(0.012, 8)],
    ['cups', struck(0.05, 1)],
  ] as const)('%s give no scratching, and quiet is not claimed either', (_, sound) => {
    const reading = heard(typed(sound), rate_hz);
    expect(reading.state).toBe('can not tell');
    expect(reading.events.length).toBeLessThanOrEqual(1);
  });

  test('strokes at the same moments are counted', () => {
    const reading = heard(
      typed((random) => scratch(rate_hz, random)),
      rate_hz,
    );
    expect(reading.state).toBe('steady');
    expect(reading.usable_s).toBeGreaterThan(0.9 * seconds);
  });
});
