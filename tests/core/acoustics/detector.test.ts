import { describe, expect, test } from 'vitest';
import { fixtureSound, fixtures, heard, joined, matched } from '../../builders/sounds.ts';
import { Detector } from '../../../src/core/acoustics/detector.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';
import { scratch } from '../../../scripts/sound-sketch/grains.ts';
import { drawScene } from '../../../scripts/sound-sketch/scene.ts';

const times = (samples: Float32Array, gain: number): Float32Array =>
  samples.map((sample) => sample * gain);
const at = (events: readonly { readonly at_s: number }[]): number[] =>
  events.map(({ at_s }) => at_s);

describe('every fixture', () => {
  test.each(fixtures)('$file is told for what it is', ({ file, state, onsets_s }) => {
    const { samples, rate_hz } = fixtureSound(file);
    const reading = heard(samples, rate_hz);
    expect(reading.state).toBe(state);
    if (state === 'waterfall') {
      expect(reading.active_share).toBeGreaterThan(0.7);
      return;
    }
    const { hits, extras } = matched(onsets_s, at(reading.events));
    expect(hits).toBeGreaterThanOrEqual(Math.floor(0.9 * onsets_s.length));
    expect(extras).toBeLessThanOrEqual(Math.ceil(0.1 * onsets_s.length));
  });
});

describe('what must not matter', () => {
  const { samples, rate_hz } = fixtureSound('steady-surf.wav');

  test('a gain in front of the meter changes no event, from -50 to -1 dB of full scale', () => {
    const plain = heard(samples, rate_hz);
    for (const gain_db of [-38, -20, 11]) {
      const other = heard(times(samples, 10 ** (gain_db / 20)), rate_hz);
      expect(at(other.events)).toEqual(at(plain.events));
      expect(other.state).toBe(plain.state);
    }
  });

  test('the size of the blocks changes nothing', () => {
    const plain = heard(samples, rate_hz, 128);
    for (const block of [100, 441, 4096, samples.length]) {
      expect(heard(samples, rate_hz, block)).toEqual(plain);
    }
  });

  test('the sampling rate and a cut above 4 kHz move the count by little', () => {
    for (const rate of [8000, 16_000, 22_050, 44_100, 48_000]) {
      const scene = drawScene({
        rate_hz: rate,
        seconds: 20,
        perMinute: 60,
        instrument: 'open microphone',
        background: null,
        snr_db: 12,
        peak_dbfs: -20,
        seed: 3,
      });
      const reading = heard(Float32Array.from(scene.samples), rate);
      const { hits, extras } = matched(scene.onsets_s, at(reading.events));
      expect(hits).toBeGreaterThanOrEqual(0.9 * scene.onsets_s.length);
      expect(extras).toBeLessThanOrEqual(2);
    }
  });

  test('what is no number counts as silence', () => {
    const holed = samples.slice();
    holed.fill(NaN, 5000, 5400);
    expect(heard(holed, rate_hz).state).toBe('steady');
  });
});

describe('people and passing noise', () => {
  const steps = fixtureSound('footsteps.wav');
  const steady = fixtureSound('steady.wav');

  test('the count goes on when the steps have passed, and their time does not count', () => {
    const reading = heard(joined(steady.samples, steps.samples, steady.samples), 16_000);
    const walk_s = steps.samples.length / 16_000;
    const between = at(reading.events).filter((event) => event > 16 && event < 16 + walk_s);
    expect(between).toEqual([]);
    expect(reading.usable_s).toBeLessThan(2 * 16 + 2);
    expect(reading.warnings).toContain('footsteps');
    const { onsets_s } = fixtures.find(({ file }) => file === 'steady.wav')!;
    const after = at(reading.events).filter((event) => event > 16 + walk_s);
    expect(after.length).toBeGreaterThanOrEqual(onsets_s.length - 3);
    expect(reading.state).toBe('steady');
  });

  test('somebody who walks by is said while they walk', () => {
    const detector = new Detector(16_000);
    detector.push(joined(steady.samples, steps.samples.subarray(0, 16_000 * 8)));
    expect(detector.reading().isWalking).toBe(true);
    detector.push(steady.samples);
    expect(detector.reading().isWalking).toBe(false);
  });

  test('after a loud passage scratches are heard again within two seconds', () => {
    const random = randomStream(5, 'loud');
    const loud = Float32Array.from({ length: 16_000 * 10 }, () => random.normal(0, 0.2));
    const reading = heard(joined(steady.samples, loud, steady.samples), 16_000);
    const { onsets_s } = fixtures.find(({ file }) => file === 'steady.wav')!;
    const again = onsets_s.filter((onset) => onset > 2).map((onset) => onset + 26);
    expect(matched(again, at(reading.events)).hits).toBeGreaterThanOrEqual(again.length - 1);
  });
});

describe('a microphone that cannot be trusted', () => {
  const { samples } = fixtureSound('steady.wav');
  const warnings = (sound: Float32Array): readonly string[] => heard(sound, 16_000).warnings;

  test('silence and a dead input give no state and no rate', () => {
    const silent = heard(new Float32Array(16_000 * 20), 16_000);
    expect(silent).toMatchObject({
      state: 'can not tell',
      scratch_per_min: null,
      warnings: ['silence'],
    });
    const random = randomStream(1, 'dead');
    const dead = Float32Array.from({ length: 16_000 * 20 }, () => random.below(3) / 2 ** 16);
    expect(heard(dead, 16_000)).toMatchObject({ state: 'can not tell', warnings: ['dead'] });
  });

  test('clipping is said, and a clean sound is not called clipped', () => {
    expect(warnings(samples)).toEqual([]);
    const cut = samples.map((sample) => Math.max(-0.06, Math.min(0.06, sample)) * 16);
    expect(warnings(cut)).toContain('clipped');
  });

  test('noise suppression that silences the pauses is said', () => {
    const gated = samples.map((sample, n) => {
      const near = Math.max(...samples.subarray(Math.max(0, n - 40), n + 40).map(Math.abs));
      return near > 0.05 ? sample : 0;
    });
    expect(warnings(gated)).toContain('gated');
  });

  test('a gain that ducks after every stroke is said', () => {
    const random = randomStream(2, 'gain');
    const ducked = Float32Array.from({ length: 16_000 * 20 }, () => random.normal(0, 0.003));
    let gain = 1;
    for (let n = 0; n < ducked.length; n++) {
      if (n % 24_000 === 20_000) {
        scratch(16_000, random)
          .slice(0, 900)
          .forEach((sample, k) => (ducked[n + k] = (ducked[n + k] ?? 0) + 0.3 * sample));
      }
      const loud = Math.abs(ducked[n]!) > 0.1;
      gain = loud ? Math.max(0.2, gain * 0.99) : Math.min(1, gain + 1 / 30_000);
      ducked[n] = ducked[n]! * gain;
    }
    expect(warnings(ducked)).toContain('automatic gain');
  });

  test('a rate that cannot be analysed is refused with what is expected', () => {
    expect(() => new Detector(4000)).toThrow(/expected 8000 to 192000/);
  });
});
