import { describe, expect, test } from 'vitest';
import { bringTogether } from '../../../src/core/thermal/loggers.ts';

const course_c = (day: number) => 28 + day / 50;
const logger = (from: number, to: number, warmer_c: number) =>
  new Map(
    Array.from({ length: to - from }, (_, at) => [from + at, course_c(from + at) + warmer_c]),
  );

describe('loggers of one beach', () => {
  test('tell how much warmer each zone is from the days they share', () => {
    const { warmer_c, beach_c } = bringTogether(
      new Map([
        ['east', logger(0, 100, 0.6)],
        ['west', logger(0, 100, -0.4)],
      ]),
    );
    // Three days' doubt in a hundred days: 3 % is held back.
    expect((warmer_c.get('east') ?? 0) - (warmer_c.get('west') ?? 0)).toBeCloseTo(100 / 103, 6);
    expect(beach_c.get(50)).toBeCloseTo(course_c(50) + 0.1, 6);
  });

  test('leave the beach’s course alone when one falls silent', () => {
    const { beach_c } = bringTogether(
      new Map([
        ['east', logger(0, 100, 0.6)],
        ['west', logger(0, 60, -0.4)],
      ]),
    );
    const step_c = beach_c.get(60)! - beach_c.get(59)!;
    // A plain mean of what is there would jump by 0.5.
    expect(Math.abs(step_c - 1 / 50)).toBeLessThan(0.06);
  });

  test('that never read on the same day do not tell zones apart', () => {
    const { warmer_c } = bringTogether(
      new Map([
        ['east', logger(0, 50, 0)],
        ['west', logger(50, 100, 0)],
      ]),
    );
    expect([...warmer_c.values()]).toEqual([0, 0]);
  });

  test('alone is the beach', () => {
    const own = logger(0, 10, 0.3);
    const { beach_c, warmer_c } = bringTogether(new Map([['east', own]]));
    expect(beach_c).toEqual(own);
    expect(warmer_c.get('east')).toBe(0);
  });
});
