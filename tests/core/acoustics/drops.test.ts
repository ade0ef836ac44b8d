import { describe, expect, test } from 'vitest';
import { heard } from '../../builders/sounds.ts';
import { addGrain, scratch } from '../../../scripts/sound-sketch/grains.ts';
import { DropListener } from '../../../src/core/acoustics/drops.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';

const rate_hz = 16_000;

/** Sounds of one kind at random moments, over a hiss. */
function scattered(
  sound: (random: ReturnType<typeof randomStream>) => Float64Array,
  perMinute: number,
  seconds = 25,
): Float32Array {
  const random = randomStream(8, perMinute);
  const samples = Float64Array.from({ length: seconds * rate_hz }, () => random.normal(0, 0.01));
  for (let at_s = 1; at_s < seconds - 1; at_s += 0.1 + random.gamma(60 / perMinute, 1)) {
    sound(random).forEach((sample, n) => {
      const at = Math.round(at_s * rate_hz) + n;
      samples[at] = samples[at]! + 0.1 * sample;
    });
  }
  return Float32Array.from(samples);
}

function drop(random: ReturnType<typeof randomStream>): Float64Array {
  const samples = new Float64Array(500);
  for (let part = 0; part < 3; part++)
    addGrain(samples, rate_hz, random.between(0, 0.004), 1, random);
  return samples;
}

describe('drops and clicks', () => {
  test.each([15, 40, 100, 400])(
    '%i drops a minute at uneven moments are no scratching, and quiet is not claimed either',
    (perMinute) => {
      const reading = heard(scattered(drop, perMinute), rate_hz);
      expect(reading.state).toBe('can not tell');
      expect(reading.warnings).toContain('rain');
    },
  );

  test('strokes at the same moments are counted', () => {
    const reading = heard(
      scattered((random) => scratch(rate_hz, random), 40),
      rate_hz,
    );
    expect(reading.state).toBe('steady');
    expect(reading.warnings).not.toContain('rain');
  });
});

describe('the listener for single knocks', () => {
  const follow = (widths_s: readonly number[], every_s = 3): boolean => {
    const listener = new DropListener();
    return widths_s
      .map((width_s, index) => listener.follow({ at_s: index * every_s, width_s }))
      .some((stretch) => stretch !== null);
  };

  test('four short ones in a row are drops, three and a stroke are not', () => {
    expect(follow([0.004, 0.005, 0.003, 0.006])).toBe(true);
    expect(follow([0.004, 0.005, 0.02, 0.006])).toBe(false);
    expect(follow([0.004, 0.005, 0.003])).toBe(false);
  });

  test('a stroke or two among many drops changes nothing', () => {
    expect(follow([0.02, 0.004, 0.005, 0.004, 0.03, 0.003, 0.005, 0.004])).toBe(true);
  });

  test('knocks a minute apart are not drops yet', () => {
    expect(follow([0.004, 0.004, 0.004, 0.004, 0.004, 0.004], 30)).toBe(false);
  });
});
