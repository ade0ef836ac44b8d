import jstat from 'jstat';
import { expect, test } from 'vitest';
import { normalCdf, normalDensity } from '../../../src/core/numerics/normal.ts';

// Truth: jstat 1.9, a general-purpose statistics library; its error function is good to about 1e-13.
test('the normal distribution is the one a statistics library has', () => {
  for (let z = -8; z <= 8; z += 0.125) {
    expect(Math.abs(normalCdf(z) - jstat.normal.cdf(z, 0, 1))).toBeLessThan(1e-12);
    expect(Math.abs(normalDensity(z) - jstat.normal.pdf(z, 0, 1))).toBeLessThan(1e-14);
  }
});

test('far out it is zero and one', () => {
  expect(normalCdf(-40)).toBe(0);
  expect(normalCdf(40)).toBe(1);
});
