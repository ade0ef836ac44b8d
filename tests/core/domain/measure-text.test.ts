import { expect, test } from 'vitest';
import {
  degreeDaysText,
  lengthText,
  roughLengthText,
  temperatureDifferenceText,
  temperatureText,
  wholeLengthText,
} from '../../../src/core/domain/measure-text.ts';
import type { Measures } from '../../../src/core/domain/measures.ts';

type Told = (value: number, measures: Measures) => string;

/** A value in both measures. */
const both = (told: Told, value: number): readonly [string, string] => [
  told(value, 'metric'),
  told(value, 'feet'),
];

test.each([
  [0, '0 m', '0 ft'],
  [120, '120 m', '394 ft'],
  [-120, '-120 m', '-394 ft'],
  [999.6, '1 km', '3280 ft'],
  [1200, '1.2 km', '3937 ft'],
  [1609.344, '1.6 km', '1 mi'],
  [1770, '1.8 km', '1.1 mi'],
  [-5000, '-5 km', '-3.1 mi'],
])('a length of %s m is said as %s or %s', (length_m, metric, feet) => {
  expect(both(lengthText, length_m)).toEqual([metric, feet]);
});

test('a place along the shore is told to the metre or foot, however far it is', () => {
  expect(both(wholeLengthText, 3412.4)).toEqual(['3412 m', '11196 ft']);
  expect(both(wholeLengthText, -0.1)).toEqual(['0 m', '0 ft']);
});

test.each([
  [0, '0 m', '0 ft'],
  [40, '40 m', '130 ft'],
  [111.195, '110 m', '360 ft'],
  [1111.95, '1.1 km', '3600 ft'],
  [11_119.5, '11 km', '6.9 mi'],
])('a length of about %s m is told in two figures, %s or %s', (length_m, metric, feet) => {
  expect(both(roughLengthText, length_m)).toEqual([metric, feet]);
});

test('a temperature, a difference and degree days each turn into Fahrenheit their own way', () => {
  expect(both(temperatureText, 16.8)).toEqual(['16.8 °C', '62.2 °F']);
  expect(both(temperatureDifferenceText, 2.5)).toEqual(['2.5 °C', '4.5 °F']);
  expect(both(temperatureDifferenceText, 0.37)).toEqual(['0.37 °C', '0.67 °F']);
  expect(both(degreeDaysText, 708)).toEqual(['708', '1274']);
});
