import { describe, expect, test } from 'vitest';
import { capacityOf } from '../../../src/core/roster/capacity.ts';
import { outlook, post, question } from '../../builders/roster-question.ts';

describe('how many crews it would take', () => {
  const nights = [outlook(0, { A: 0.6, B: 0.3, C: 0.1 }), outlook(1, { A: 0.1, B: 0.2, C: 0.4 })];
  const asked = question({ nights, posts: [post('A'), post('B'), post('C')] });

  test('is told by what each more would meet, tonight and over all nights', () => {
    // The watch to 01:00 holds five of the six hours of boils.
    const { points } = capacityOf(asked, 10);
    expect(points.map(({ crews }) => crews)).toEqual([0, 1, 2, 3]);
    [0, 0.6, 0.9, 1].forEach((of, crews) => {
      expect(points[crews]?.firstNight).toBeCloseTo((of * 5) / 6, 9);
    });
    [0, 1, 1.5, 1.7].forEach((of, crews) => {
      expect(points[crews]?.allNights).toBeCloseTo((of * 5) / 6, 9);
    });
  });

  test('stands beside what is to be expected at any hour', () => {
    const { firstNight, allNights } = capacityOf(asked, 2);
    expect([firstNight, allNights]).toEqual([expect.closeTo(1, 9), expect.closeTo(1.7, 9)]);
  });
});
