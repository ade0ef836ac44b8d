import { describe, expect, test } from 'vitest';
import { type Likeness, strokeOdds } from '../../../src/core/acoustics/stroke-odds.ts';

/** As the median of sketched strokes at 10 dB. */
const stroke: Likeness = {
  peak_db: 17,
  over_db: 18,
  steep_db: 17,
  length_s: 0.05,
  voicing: 0.15,
  struck: 0.12,
  pitched: 0.09,
  tailPitched: 0.14,
  tail_db: -12,
};

describe('the odds that a sudden sound is a stroke', () => {
  test('are for it when it is many knocks that set in at once and leave nothing behind', () => {
    expect(strokeOdds(stroke)).toBeGreaterThan(0.5);
  });

  const others: readonly (readonly [string, Partial<Likeness>])[] = [
    ['a key: nearly all of it in the first blow', { struck: 0.8 }],
    ['a creak, loud but slow to grow', { over_db: 21, steep_db: 6 }],
    ['a drop in a cave, on one pitch', { pitched: 0.45 }],
    ['a plate that rings on', { length_s: 0.4, tailPitched: 0.3 }],
    ['an echo that fades evenly for long', { length_s: 0.4, tail_db: -14 }],
    ['a bark', { voicing: 0.6 }],
  ];
  test.each(others)('are against %s', (_, trait) => {
    expect(strokeOdds({ ...stroke, ...trait })).toBeLessThan(0);
  });

  test('a fall of sand lasts without fading or ringing, and stays likely', () => {
    const fall = { ...stroke, length_s: 0.4, tail_db: 0, tailPitched: 0.08 };
    expect(strokeOdds(fall)).toBe(strokeOdds(stroke));
  });

  test('what hardly stands out of the noise is not asked to climb far', () => {
    expect(strokeOdds({ ...stroke, over_db: 8, steep_db: 5 })).toBe(strokeOdds(stroke));
  });
});
