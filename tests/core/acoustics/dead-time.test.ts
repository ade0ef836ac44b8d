import { expect, test } from 'vitest';
import { missedByDeafness } from '../../../src/core/acoustics/dead-time.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';

/** Events at random moments through a detector that hears none within 0.09 s of the last it heard. */
function heardOf(perSecond: number): { readonly truth: number; readonly at_s: number[] } {
  const random = randomStream(3, perSecond);
  const at_s: number[] = [];
  let truth = 0;
  for (let at = random.gamma(1 / perSecond, 1); at < 600; at += random.gamma(1 / perSecond, 1)) {
    truth++;
    if (at - (at_s.at(-1) ?? -1) >= 0.09) at_s.push(at);
  }
  return { truth, at_s };
}

test.each([0.5, 2, 5])('events at random, %d a second, are counted within 5 %%', (perSecond) => {
  const { truth, at_s } = heardOf(perSecond);
  expect(Math.abs((at_s.length * missedByDeafness(at_s)) / truth - 1)).toBeLessThan(0.05);
});

test('events that keep their distance hide none', () => {
  expect(missedByDeafness(Array.from({ length: 100 }, (_, n) => n * 0.5))).toBe(1);
});

test('nothing and one event need no correction', () => {
  expect(missedByDeafness([])).toBe(1);
  expect(missedByDeafness([4])).toBe(1);
});
