import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hasten } from '../../../src/core/forecast/prior.ts';

const priors = fc
  .array(fc.double({ min: 1e-6, max: 1, noNaN: true }), { minLength: 3, maxLength: 60 })
  .map((weights) => {
    const sum = weights.reduce((total, weight) => total + weight, 0);
    return Float64Array.from(weights, (weight) => weight / sum);
  });
const factors = fc.double({ min: 0.2, max: 5, noNaN: true });
const sumFrom = (values: Float64Array, from: number): number =>
  values.subarray(from).reduce((sum, value) => sum + value, 0);

describe('a prior that is hastened from a night on', () => {
  test('keeps its sum and what lies before that night', () => {
    fc.assert(
      fc.property(priors, factors, fc.nat(20), (prior, factor, night) => {
        const from = night % prior.length;
        const hastened = hasten(prior, from, factor);
        expect(sumFrom(hastened, 0)).toBeCloseTo(1, 12);
        expect(hastened.slice(0, from)).toEqual(prior.slice(0, from));
      }),
      { seed: 7 },
    );
  });

  test('multiplies the odds of each night against all later ones', () => {
    fc.assert(
      fc.property(priors, factors, fc.nat(20), (prior, factor, night) => {
        const from = night % prior.length;
        const hastened = hasten(prior, from, factor);
        for (let c = from; c + 1 < prior.length; c++) {
          const before = prior[c]! / sumFrom(prior, c + 1);
          const after = hastened[c]! / sumFrom(hastened, c + 1);
          if (before > 1e3 || sumFrom(hastened, c + 1) < 1e-9) return;
          expect(after / before / factor).toBeCloseTo(1, 5);
        }
      }),
      { seed: 8 },
    );
  });

  test('is itself for a factor of one', () => {
    const prior = Float64Array.from([0.2, 0.5, 0.3]);
    expect(hasten(prior, 1, 1)).toEqual(prior);
  });
});
