import { describe, expect, test } from 'vitest';
import { type Heard, stateLikelihood } from '../../../src/core/acoustics/state-likelihood.ts';

const calm: Heard = { events: 0, usable_s: 600, active_share: 0, rush_share: 0, poor: 0 };
const sum = (values: Readonly<Record<string, number>>): number =>
  Object.values(values).reduce((total, value) => total + value, 0);

describe('the likelihood over the four sound states', () => {
  test('sums to one and has no zero in it', () => {
    for (const heard of [calm, { ...calm, events: 5000, active_share: 1, rush_share: 1 }]) {
      const likelihood = stateLikelihood(heard);
      expect(sum(likelihood)).toBeCloseTo(1, 12);
      expect(Math.min(...Object.values(likelihood))).toBeGreaterThan(0.001);
    }
  });

  test('more scratches a minute move it up, state by state', () => {
    const likeliest = (events: number, active_share: number, rush_share = 0): string => {
      const found = stateLikelihood({ ...calm, events, active_share, rush_share });
      return Object.entries(found).sort(([, a], [, b]) => b - a)[0]![0];
    };
    expect(likeliest(0, 0)).toBe('quiet');
    expect(likeliest(20, 0.004)).toBe('occasional');
    expect(likeliest(300, 0.05)).toBe('steady');
    expect(likeliest(400, 0.9, 0.9)).toBe('waterfall');
  });

  test('a minute of silence says less than ten', () => {
    const quiet = (usable_s: number): number => stateLikelihood({ ...calm, usable_s }).quiet;
    expect(quiet(60)).toBeLessThan(quiet(600));
    expect(quiet(5)).toBeLessThan(quiet(60));
    expect(stateLikelihood({ ...calm, usable_s: 0 })).toEqual({
      quiet: 0.25,
      occasional: 0.25,
      steady: 0.25,
      waterfall: 0.25,
    });
  });

  test('poor conditions flatten it without changing its order', () => {
    const clear = stateLikelihood({ ...calm, events: 300, active_share: 0.05 });
    const poor = stateLikelihood({ ...calm, events: 300, active_share: 0.05, poor: 0.8 });
    expect(poor.steady).toBeLessThan(clear.steady);
    expect(poor.quiet).toBeGreaterThan(clear.quiet);
    expect(poor.steady).toBeGreaterThan(poor.occasional);
  });

  test('a few scratches among many rejected sounds are no proof of scratching', () => {
    const few = { ...calm, usable_s: 120, events: 6, active_share: 0.003 };
    expect(stateLikelihood(few).occasional).toBeGreaterThan(0.8);
    expect(stateLikelihood({ ...few, leak_per_min: 3 }).occasional).toBeLessThan(0.6);
  });
});
