import fc from 'fast-check';
import { expect, test } from 'vitest';
import { shortTurn_deg } from '../../../src/core/numerics/angle.ts';
import { circularMean } from '../../../src/core/orientation/circular-mean.ts';
import { fanOf } from '../../../src/core/orientation/fan.ts';
import { rayleigh } from '../../../src/core/orientation/uniformity.ts';

const seed = 20_260_720;
const bearings = fc.array(fc.integer({ min: 0, max: 359 }), { minLength: 1, maxLength: 40 });

test('turning the beach turns the mean and the fan with it and changes nothing else', () => {
  fc.assert(
    fc.property(bearings, fc.integer({ min: 1, max: 359 }), (before, turn) => {
      const after = before.map((deg) => (deg + turn) % 360);
      const [one, other] = [circularMean(before), circularMean(after)];
      expect(other?.r).toBeCloseTo(one?.r ?? NaN, 9);
      expect(fanOf(after)?.width_deg).toBe(fanOf(before)?.width_deg);
      const [a, b] = [one?.mean_deg ?? null, other?.mean_deg ?? null];
      if (a !== null && b !== null && (one?.r ?? 0) > 1e-3) {
        expect(shortTurn_deg(b - a - turn)).toBeCloseTo(0, 6);
      }
    }),
    { seed, numRuns: 300 },
  );
});

test('the fan holds every track, and r, p and z stay within their bounds', () => {
  fc.assert(
    fc.property(bearings, (tracks) => {
      const fan = fanOf(tracks);
      const mean = circularMean(tracks);
      if (fan === null || mean === null) throw new Error('there are tracks');
      for (const deg of tracks) {
        expect((deg - fan.left_deg + 720) % 360).toBeLessThanOrEqual(fan.width_deg);
      }
      const { z, p } = rayleigh(mean);
      expect(mean.r).toBeGreaterThanOrEqual(0);
      expect(mean.r).toBeLessThanOrEqual(1);
      expect(z).toBeLessThanOrEqual(tracks.length + 1e-9);
      expect(p).toBeGreaterThan(0);
      expect(p).toBeLessThanOrEqual(1);
    }),
    { seed, numRuns: 300 },
  );
});
