import { describe, expect, test } from 'vitest';
import { longFeatures, longFrame } from '../../../src/core/acoustics/features.ts';
import { analysisRate_hz } from '../../../src/core/acoustics/analysis-rate.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';
import { essentia } from '../../reference/essentia.ts';

// Truth: essentia.js 0.1.3 (Music Technology Group, Barcelona), in 32-bit floats, hence a relative 1e-4.
// Definitions: RMS is alike. Essentia's Centroid spreads 0 .. range over the bins first to last, Meyda's
// counts bins; with range = (bins - 1) bins both say the same. Flatness of Meyda is taken on the
// magnitudes of 512 bins, Essentia's Spectrum gives 513: the last is left off here.
const random = randomStream(11, 'features');
const frames: readonly (readonly [string, Float32Array])[] = [
  ['noise', Float32Array.from({ length: longFrame }, () => random.normal(0, 0.1))],
  [
    'a tone in noise',
    Float32Array.from(
      { length: longFrame },
      (_, n) => 0.3 * Math.sin((2 * Math.PI * 440 * n) / 16_000) + random.normal(0, 0.02),
    ),
  ],
  [
    'a stroke',
    Float32Array.from({ length: longFrame }, (_, n) => random.normal(0, 0.2) * Math.exp(-n / 150)),
  ],
];

describe('long frames agree with an outside library', () => {
  test.each(frames)('%s', (_, samples) => {
    const outside = essentia();
    const bins = longFrame / 2;
    const spectrum = outside.spectrum(samples).slice(0, bins);
    const found = longFeatures(samples);
    if (found === null) throw new Error('The frame has features.');
    const close = (ours: number, theirs: number): void =>
      expect(Math.abs(ours - theirs) / theirs).toBeLessThan(1e-4);
    close(found.rms, outside.rms(samples));
    close(
      found.centroid_hz,
      outside.centroid(spectrum, ((bins - 1) * analysisRate_hz) / longFrame),
    );
    close(found.flatness, outside.flatness(spectrum));
  });
});

test('digital silence has no features', () => {
  expect(longFeatures(new Float32Array(longFrame))).toBeNull();
});
