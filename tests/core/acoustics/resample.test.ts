import { describe, expect, test } from 'vitest';
import { Resampler } from '../../../src/core/acoustics/resample.ts';

const tone = (rate_hz: number, pitch_hz: number, seconds: number): Float32Array =>
  Float32Array.from({ length: rate_hz * seconds }, (_, n) =>
    Math.sin((2 * Math.PI * pitch_hz * n) / rate_hz),
  );
const level_db = (samples: Float64Array): number => {
  const inner = samples.slice(400, -400);
  return 10 * Math.log10((2 * inner.reduce((sum, x) => sum + x * x, 0)) / inner.length + 1e-12);
};

describe('every rate comes to 16 kHz', () => {
  test.each([8000, 11_025, 22_050, 44_100, 48_000, 96_000])('from %i a second', (rate_hz) => {
    const samples = new Resampler(rate_hz).push(tone(rate_hz, 1000, 1));
    expect(Math.abs(samples.length - 16_000)).toBeLessThan(120);
    expect(Math.abs(level_db(samples))).toBeLessThan(0.1);
    // The tone is where it was: no delay.
    const wanted = Math.sin((2 * Math.PI * 1000 * 5003) / 16_000);
    expect(samples[5003]).toBeCloseTo(wanted, 2);
  });

  test('what lies above half the rate does not fold down into the bands looked at', () => {
    for (const pitch_hz of [9500, 12_000, 15_000, 20_000]) {
      const samples = new Resampler(44_100).push(tone(44_100, pitch_hz, 1));
      expect(level_db(samples)).toBeLessThan(-50);
    }
  });

  test('pieces of any size give the same as the whole', () => {
    const sound = tone(44_100, 700, 0.3);
    const whole = new Resampler(44_100).push(sound);
    const resampler = new Resampler(44_100);
    const pieces: number[] = [];
    for (let at = 0; at < sound.length; at += 777) {
      pieces.push(...resampler.push(sound.subarray(at, at + 777)));
    }
    expect(pieces).toEqual([...whole]);
  });
});
