import { describe, expect, test } from 'vitest';
import { type Random, randomStream } from '../../../src/core/numerics/random.ts';

const DRAWS = 40_000;

function moments(draw: (random: Random) => number): { mean: number; variance: number } {
  const random = randomStream(7, 'moments');
  const values = Array.from({ length: DRAWS }, () => draw(random));
  const mean = values.reduce((sum, value) => sum + value, 0) / DRAWS;
  const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (DRAWS - 1);
  return { mean, variance };
}

describe('a stream of chance', () => {
  test('is the same again for the same seed and labels', () => {
    const [one, again] = [randomStream(3, 'sea', 4), randomStream(3, 'sea', 4)];
    for (let draw = 0; draw < 100; draw++) expect(one.uniform()).toBe(again.uniform());
  });

  test('differs when the seed or a label differs', () => {
    const firsts = [
      randomStream(3, 'sea', 4),
      randomStream(4, 'sea', 4),
      randomStream(3, 'sea', 5),
      randomStream(3, 'sand', 4),
      randomStream(-3, 'sea', 4),
      randomStream(3 + 2 ** 40, 'sea', 4),
    ].map((random) => random.uniform());
    expect(new Set(firsts).size).toBe(firsts.length);
  });

  test('refuses a seed that is not a whole number', () => {
    expect(() => randomStream(0.5)).toThrow('A seed is a whole number, not 0.5.');
    expect(() => randomStream(Number.NaN)).toThrow(RangeError);
  });

  test('fills the unit interval evenly', () => {
    const random = randomStream(11);
    const cells = new Array<number>(50).fill(0);
    for (let draw = 0; draw < DRAWS; draw++) {
      const at = random.below(50);
      cells[at] = (cells[at] ?? 0) + 1;
    }
    const expected = DRAWS / 50;
    const chiSquare = cells.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    // Chi-square with 49 degrees of freedom: 0.001 and 0.999 quantiles (tables) 23.98 and 85.35.
    expect(chiSquare).toBeGreaterThan(23.98);
    expect(chiSquare).toBeLessThan(85.35);
  });

  test('first draws of neighbouring streams are as even as draws of one stream', () => {
    const firsts = Array.from({ length: DRAWS }, (_, nest) =>
      randomStream(1, 'nest', nest).uniform(),
    );
    const mean = firsts.reduce((sum, value) => sum + value, 0) / DRAWS;
    const lag = firsts
      .slice(1)
      .reduce((sum, value, at) => sum + (value - 0.5) * ((firsts[at] ?? 0.5) - 0.5), 0);
    // Four standard errors: 1/sqrt(12 n) for the mean, 1/sqrt(n) for the correlation.
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 / Math.sqrt(12 * DRAWS));
    expect(Math.abs((12 * lag) / DRAWS)).toBeLessThan(4 / Math.sqrt(DRAWS));
  });

  test('refuses to choose from nothing', () => {
    expect(() => randomStream(1).choice([])).toThrow('Nothing to choose from.');
    expect(() => randomStream(1).weighted([])).toThrow('Nothing to choose from.');
  });

  test('chooses in proportion to the weights', () => {
    const { mean } = moments((random) =>
      random.weighted([
        [0, 1],
        [1, 3],
      ] as const),
    );
    expect(mean).toBeCloseTo(0.75, 1);
  });
});

// Closed-form mean and variance of each law; tolerance about five standard errors of 40,000 draws.
describe.each<[string, (random: Random) => number, number, number]>([
  ['even draw from 2 to 5', (random) => random.between(2, 5), 3.5, 0.75],
  ['Gaussian of mean 3 and SD 2', (random) => random.normal(3, 2), 3, 4],
  ['gamma of mean 4 and shape 5', (random) => random.gamma(4, 5), 4, 16 / 5],
  ['gamma of mean 1 and shape 0.5', (random) => random.gamma(1, 0.5), 1, 2],
  ['beta of mean 0.3 and concentration 4', (random) => random.beta(0.3, 4), 0.3, 0.21 / 5],
  ['Poisson of mean 2.5', (random) => random.poisson(2.5), 2.5, 2.5],
  ['Poisson of mean 80', (random) => random.poisson(80), 80, 80],
  ['binomial of 20 trials at 0.3', (random) => random.binomial(20, 0.3), 6, 4.2],
  ['chance of 0.2', (random) => Number(random.chance(0.2)), 0.2, 0.16],
])('the %s', (_law, draw, mean, variance) => {
  test('has the mean and the variance of its law', () => {
    const drawn = moments(draw);
    expect(Math.abs(drawn.mean - mean)).toBeLessThan(5 * Math.sqrt(variance / DRAWS));
    expect(Math.abs(drawn.variance / variance - 1)).toBeLessThan(0.07);
  });
});
