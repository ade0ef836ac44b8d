import { describe, expect, test } from 'vitest';
import type { Stretch } from '../../../src/core/acoustics/footsteps.ts';
import { SeriesListener } from '../../../src/core/acoustics/series.ts';

function follow(
  odds: readonly number[],
  { every_s = 2, isRushing = false } = {},
): readonly (Stretch | null)[] {
  const listener = new SeriesListener();
  return odds.map((each, index) =>
    listener.follow({ at_s: 10 + index * every_s, odds: each }, isRushing),
  );
}

describe('sudden sounds looked at together', () => {
  test('one that is unlike a stroke decides nothing, however unlike', () => {
    expect(follow([0.8, -9, 0.8, 0.7, 0.8])).toEqual([null, null, null, null, null]);
  });

  test('several that lean against it are something else, from the first of them', () => {
    const heard = follow([-0.9, -1, -0.6, -0.9]);
    expect(heard.slice(0, 3)).toEqual([null, null, null]);
    expect(heard[3]).toEqual({ from_s: 9, to_s: 19 });
  });

  test('a few strange ones among strokes are borne', () => {
    const mixed = Array.from({ length: 40 }, (_, n) => (n % 4 === 0 ? -1.5 : 0.7));
    expect(follow(mixed).every((stretch) => stretch === null)).toBe(true);
  });

  test('a third of them quite unlike strokes, as among crickets, decide nothing', () => {
    const mixed = Array.from({ length: 40 }, (_, n) => (n % 3 === 2 ? -4 : 0.3));
    expect(follow(mixed).every((stretch) => stretch === null)).toBe(true);
  });

  test('strokes after a series of knocks are believed again', () => {
    const then = follow([...Array<number>(10).fill(-1), ...Array<number>(14).fill(0.7)]);
    expect(then[10]).not.toBeNull();
    expect(then.at(-1)).toBeNull();
  });

  test('in a rush it takes more: keys are still known, grains that run together are borne', () => {
    const rushing = { isRushing: true };
    expect(follow(Array<number>(14).fill(-0.4), rushing).at(-1)).toBeNull();
    expect(follow(Array<number>(14).fill(-1.2), rushing).at(-1)).not.toBeNull();
  });

  test('sounds minutes apart are no series', () => {
    expect(
      follow([-1, -1, -1, -1, -1, -1], { every_s: 40 }).every((stretch) => stretch === null),
    ).toBe(true);
  });

  test('doubt grows as they lean against strokes, and there is none while they lean to them', () => {
    const listener = new SeriesListener();
    listener.follow({ at_s: 1, odds: 0.8 }, false);
    expect(listener.doubt).toBe(0);
    listener.follow({ at_s: 2, odds: -1.2 }, false);
    const little = listener.doubt;
    listener.follow({ at_s: 3, odds: -1.2 }, false);
    expect(little).toBeGreaterThan(0);
    expect(listener.doubt).toBeGreaterThan(little);
  });
});
