import { describe, expect, test } from 'vitest';
import { OrientationDetails } from '../../../src/core/domain/orientation.ts';
import { circularMean } from '../../../src/core/orientation/circular-mean.ts';
import { circularMedian } from '../../../src/core/orientation/circular-median.ts';
import { confidence } from '../../../src/core/orientation/confidence.ts';
import { bisector, fanBetween, fanOf } from '../../../src/core/orientation/fan.ts';
import { offsetFrom } from '../../../src/core/orientation/offset.ts';
import { orientationOf } from '../../../src/core/orientation/orientation-of.ts';

const of = (details: object, seaward_deg?: number) =>
  orientationOf(OrientationDetails.parse({ night: '2026-07-20', ...details }), seaward_deg);

describe('a fan', () => {
  test('goes over north when the tracks do', () => {
    expect(fanOf([350, 20, 5])).toEqual({ left_deg: 350, right_deg: 20, width_deg: 30 });
    expect(bisector(fanBetween(350, 20))).toBe(5);
  });

  test('of tracks in all directions leaves out only the widest gap', () => {
    expect(fanOf([0, 90, 180, 260])?.width_deg).toBe(260);
  });

  test('of one track has no width, and of none there is no fan', () => {
    expect(fanOf([77])).toEqual({ left_deg: 77, right_deg: 77, width_deg: 0 });
    expect(fanOf([])).toBeNull();
  });

  test('is the one that was noted, even where the tracks whose bearing was taken lie within', () => {
    const { fan } = of({ leftmost_deg: 60, rightmost_deg: 140, track_bearings: [85, 95] });
    expect(fan?.width_deg).toBe(80);
  });
});

describe('the offset from the line to the sea', () => {
  test('is the shorter way round, left or right of one who faces the sea', () => {
    expect(offsetFrom(10, 350)).toEqual({ offset_deg: 20, side: 'left' });
    expect(offsetFrom(350, 10)).toEqual({ offset_deg: 20, side: 'right' });
    expect(offsetFrom(90, 270)).toEqual({ offset_deg: 180, side: 'neither' });
  });

  test('goes by the main direction noted on the beach, then the mean, then the middle of the fan', () => {
    expect(of({ modal_deg: 120, track_bearings: [80, 100] }, 90).offset?.offset_deg).toBe(30);
    expect(of({ track_bearings: [80, 110] }, 90).offset?.offset_deg).toBeCloseTo(5, 9);
    expect(of({ leftmost_deg: 80, rightmost_deg: 120 }, 90).main?.from).toBe('middle of the fan');
  });

  test('goes by the line noted on the beach before that of the zone', () => {
    expect(of({ seaward_deg: 80, modal_deg: 90 }, 70).offset?.offset_deg).toBe(10);
  });
});

describe('what cannot be said', () => {
  test('tracks that cancel have no mean, no median and no main direction, and it is said', () => {
    const opposite = of({ track_bearings: [0, 90, 180, 270] }, 90);
    expect(opposite.mean?.mean_deg).toBeNull();
    expect(opposite.mean?.r).toBe(0);
    expect(opposite.mean?.sd_deg).toBeNull();
    expect(opposite.median_deg).toBeNull();
    expect(opposite.main).toBeNull();
    expect(opposite.offset).toBeNull();
    expect(opposite.rayleigh?.p).toBeGreaterThan(0.9);
    expect(opposite.unsaid.join(' ')).toContain('cancel');
  });

  test('spread too wide excludes no direction', () => {
    const mean = circularMean([0, 40, 100, 160, 200, 250, 290, 330]);
    expect(mean === null ? null : confidence(mean)).toEqual({ kind: 'any direction' });
  });

  test('few tracks get their fan and no confidence', () => {
    const few = of({ track_bearings: [80, 90, 100] }, 90);
    expect(few.confidence).toEqual({ kind: 'too few', least: 8 });
    expect(few.fan?.width_deg).toBe(20);
    expect(few.unsaid.join(' ')).toContain('Fewer than 8 tracks');
  });

  test('one track has a direction and nothing else', () => {
    const one = of({ track_bearings: [100] }, 90);
    expect(one.mean?.mean_deg).toBeCloseTo(100, 9);
    expect(one.rayleigh).toBeNull();
    expect(one.offset?.offset_deg).toBeCloseTo(10, 9);
  });

  test('without bearings and without a line to the sea every figure is missing, with a word on each', () => {
    const nothing = of({});
    expect(nothing).toMatchObject({ n: 0, mean: null, fan: null, main: null, offset: null });
    expect(nothing.unsaid).toHaveLength(4);
  });

  test('there is no median of two opposite directions', () => {
    expect(circularMedian([0, 180])).toBeNull();
    expect(circularMedian([])).toBeNull();
  });
});
