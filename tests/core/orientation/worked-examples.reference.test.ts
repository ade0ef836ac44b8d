import { describe, expect, test } from 'vitest';
import {
  circularMean,
  groupedMean,
  weightedMean,
} from '../../../src/core/orientation/circular-mean.ts';
import { circularMedian } from '../../../src/core/orientation/circular-median.ts';
import { confidence, largeSampleConfidence } from '../../../src/core/orientation/confidence.ts';
import { fanOf } from '../../../src/core/orientation/fan.ts';
import { gathersAround, rayleigh } from '../../../src/core/orientation/uniformity.ts';

/** The mean of bearings that are known to have one. */
function meanOf(bearings_deg: readonly number[]) {
  const mean = circularMean(bearings_deg);
  if (mean === null) throw new Error('there were bearings');
  return mean;
}

function half(of: ReturnType<typeof confidence>): number {
  if (of.kind !== 'within') throw new Error(`an interval was expected, not ${of.kind}`);
  return of.half_deg;
}

// Book values as a public test suite quotes them with their pages; digits beyond the book's are a
// recomputation from the same data. Tolerance: half of the last digit quoted.

// Zar 2010, Biostatistical Analysis (5th ed.), examples 26.4 and 27.1.
describe('eight directions of Zar’s example 26.4', () => {
  const data = [45, 55, 81, 96, 110, 117, 132, 154];
  const mean = meanOf(data);

  test('their mean is 99 degrees with r 0.82522', () => {
    expect(mean.mean_deg).toBeCloseTo(98.9878, 4);
    expect(mean.resultant).toBeCloseTo(6.60174, 5);
    expect(mean.r).toBeCloseTo(0.82522, 5);
  });

  test('they deviate by 34 degrees, by the other measure by 36', () => {
    expect(mean.deviation_deg).toBeCloseTo(33.876, 3);
    expect(mean.sd_deg).toBeCloseTo(35.515, 3);
  });

  test('the 95 % interval is 68 to 130 degrees', () => {
    expect(half(confidence(mean))).toBeCloseTo(30.93, 2);
  });

  test('Rayleigh’s z is 5.448, p between 0.001 and 0.002', () => {
    const { z, p } = rayleigh(mean);
    expect(z).toBeCloseTo(5.44787, 4);
    expect(p).toBeCloseTo(0.00185, 5);
  });

  test('their median is 103 degrees', () => {
    expect(circularMedian(data)).toBeCloseTo(103, 9);
  });
});

// Zar 2010, examples 27.2 and 27.3: directions that were expected at 90 degrees.
describe('ten directions of Zar’s example 27.2', () => {
  const mean = meanOf([66, 75, 86, 88, 88, 93, 97, 101, 118, 130]);

  test('gather around 90 degrees: V 9.498, u 4.248', () => {
    const toSea = gathersAround(mean, 90);
    expect(mean.mean_deg).toBeCloseTo(94.0482, 4);
    expect(mean.r).toBeCloseTo(0.95214, 5);
    expect(toSea?.v).toBeCloseTo(9.49761, 4);
    expect(toSea?.u).toBeCloseTo(4.24746, 4);
  });

  test('have an interval that does not exclude 90 degrees', () => {
    const width = half(confidence(mean));
    expect(width).toBeCloseTo(12.69, 2);
    expect(Math.abs((mean.mean_deg ?? 0) - 90)).toBeLessThan(width);
  });
});

// Zar 2010, example 26.5: 105 directions counted in classes of 30 degrees.
describe('directions counted in classes, Zar’s example 26.5', () => {
  const counts = [0, 6, 9, 13, 15, 22, 17, 12, 8, 3, 0, 0];
  const classes = counts.map((count, index) => ({ bearing_deg: 15 + 30 * index, count }));

  test('mean 162, r 0.55064 and s0 62 before the classes are allowed for', () => {
    const mean = weightedMean(classes);
    expect(mean?.n).toBe(105);
    expect(mean?.mean_deg).toBeCloseTo(161.565, 3);
    expect(mean?.r).toBeCloseTo(0.550635, 5);
    expect(mean?.deviation_deg).toBeCloseTo(54.317, 3);
    expect(mean?.sd_deg).toBeCloseTo(62.591, 3);
  });

  test('s 54 and s0 62 with r corrected for the width of the classes', () => {
    const mean = groupedMean(classes, 30);
    // c = (pi / 12) / sin(pi / 12) = 1.01152, worked by hand; the direction stays as it is.
    expect(mean?.r).toBeCloseTo(0.550635 * 1.01152, 5);
    expect(mean?.mean_deg).toBeCloseTo(161.565, 3);
    expect(Math.round(mean?.deviation_deg ?? 0)).toBe(54);
    expect(Math.round(mean?.sd_deg ?? 0)).toBe(62);
  });
});

// Mardia & Jupp 2000, Directional Statistics, example 1.1: a roulette wheel.
test('nine stops of the roulette wheel of Mardia and Jupp: mean 51, median 52, range 169', () => {
  const data = [43, 45, 52, 61, 75, 88, 88, 279, 357];
  const mean = meanOf(data);
  expect(mean.mean_deg).toBeCloseTo(51.0502, 4);
  expect(mean.r).toBeCloseTo(0.71099, 5);
  expect(circularMedian(data)).toBe(52);
  expect(fanOf(data)).toEqual({ left_deg: 279, right_deg: 88, width_deg: 169 });
  expect(rayleigh(mean).z).toBeCloseTo(4.5496, 3);
  expect(rayleigh(mean).p).toBeCloseTo(0.007, 4);
});

// Fisher 1993, Statistical Analysis of Circular Data, set B6 number 2, interval on p. 78.
test('thirty directions of Fisher’s set B6: 232.7 to 262.5 degrees with 95 % confidence', () => {
  const data = [
    294, 301, 329, 315, 277, 281, 254, 245, 272, 242, 177, 257, 177, 229, 250, 166, 232, 245, 224,
    186, 257, 267, 241, 239, 287, 229, 290, 214, 215, 224,
  ];
  const mean = meanOf(data);
  const width = half(largeSampleConfidence(data, mean));
  expect(mean.mean_deg).toBeCloseTo(247.6166, 4);
  expect(mean.r).toBeCloseTo(0.78283, 5);
  expect((mean.mean_deg ?? 0) - width).toBeCloseTo(232.7, 1);
  expect((mean.mean_deg ?? 0) + width).toBeCloseTo(262.5, 1);
});

// Fisher 1993, set B3 (Stephens 1969): 76 turtles after laying. The data are the book's; the figures
// are a recomputation, as the book's own were not seen.
test('the seventy-six turtles of Fisher’s set B3 hold a direction, though they have two humps', () => {
  const data = [
    8, 9, 13, 13, 14, 18, 22, 27, 30, 34, 38, 38, 40, 44, 45, 47, 48, 48, 48, 48, 50, 53, 56, 57,
    58, 58, 61, 63, 64, 64, 64, 65, 65, 68, 70, 73, 78, 78, 78, 83, 83, 88, 88, 88, 90, 92, 92, 93,
    95, 96, 98, 100, 103, 106, 113, 118, 138, 153, 153, 155, 204, 215, 223, 226, 237, 238, 243, 244,
    250, 251, 257, 268, 285, 319, 343, 350,
  ];
  const mean = meanOf(data);
  expect(mean.n).toBe(76);
  expect(mean.mean_deg).toBeCloseTo(64.171, 3);
  expect(mean.resultant).toBeCloseTo(37.779, 3);
  expect(mean.r).toBeCloseTo(0.49709, 5);
  expect(rayleigh(mean).z).toBeCloseTo(18.78, 2);
  expect(rayleigh(mean).p).toBeLessThan(1e-7);
});
