import { expect, test } from 'vitest';
import { type Stretch, StepListener } from '../../../src/core/acoustics/footsteps.ts';
import { randomStream } from '../../../src/core/numerics/random.ts';

/** The walk that is heard in sounds at these moments; null when none. */
function walk(at_s: readonly number[], isThump = false): Stretch | null {
  const listener = new StepListener();
  let heard: Stretch | null = null;
  for (const moment of at_s) heard = listener.follow({ at_s: moment, isThump }) ?? heard;
  return heard;
}

const pace = (count: number, gap_s: number): number[] =>
  Array.from({ length: count }, (_, step) => 10 + step * gap_s * (step % 2 === 0 ? 1.004 : 1));

test('even steps are a walk from the first of them to a little after the last', () => {
  const heard = walk(pace(8, 0.55));
  expect(heard?.from_s).toBeCloseTo(9.5, 1);
  expect(heard?.to_s).toBeCloseTo(10 + 7 * 0.55 + 1.3, 1);
});

test('four thumps in a row are enough, four bright sounds are not', () => {
  expect(walk(pace(4, 0.6), true)).not.toBeNull();
  expect(walk(pace(4, 0.6), false)).toBeNull();
});

test('heel and toe are one step', () => {
  expect(
    walk(
      pace(8, 0.6).flatMap((step) => [step, step + 0.11]),
      true,
    ),
  ).not.toBeNull();
});

test('faster or slower than people go is no walk', () => {
  expect(walk(pace(20, 1.6))).toBeNull();
});

test('scratches at random moments are taken for a walk less than once in five minutes', () => {
  for (const perMinute of [20, 60, 110]) {
    const random = randomStream(4, perMinute);
    const listener = new StepListener();
    let walks = 0;
    let walking = false;
    for (let at_s = 0; at_s < 3600; at_s += 0.1 + random.gamma(60 / perMinute - 0.1, 1)) {
      const isWalk = listener.follow({ at_s, isThump: false }) !== null;
      if (isWalk && !walking) walks++;
      walking = isWalk;
    }
    expect(walks).toBeLessThan(12);
  }
});

test('a walk is over when scratches come at all moments, however many', () => {
  const random = randomStream(6, 'after');
  const listener = new StepListener();
  for (const at_s of pace(8, 0.55)) listener.follow({ at_s, isThump: true });
  let last: Stretch | null = null;
  for (let at_s = 15; at_s < 60; at_s += 0.1 + random.gamma(0.3, 1)) {
    last = listener.follow({ at_s, isThump: false });
  }
  expect(last).toBeNull();
});

test('low sounds without a pace are handling, once they are no fewer than the bright ones', () => {
  const uneven = [0, 1.9, 2.6, 5.1, 7.9, 8.4].map((at) => 20 + at);
  expect(walk(uneven, true)).not.toBeNull();
  expect(walk(uneven, false)).toBeNull();
  expect(walk(uneven.slice(0, 4), true)).toBeNull();
});
