import { expect, test } from 'vitest';
import {
  differenceToFahrenheit,
  foot_m,
  lengthToType,
  lengthTyped_m,
  mile_m,
  toFahrenheit,
} from '../../../src/core/domain/measures.ts';

// The international foot and mile: 1 ft = 0.3048 m and 1 mi = 1609.344 m = 5280 ft, exactly
// (international yard and pound agreement of 1959, by which 1 yd = 0.9144 m; a yard has 3 feet, a
// mile 1760 yards). Being definitions, they leave nothing to tolerate but the last bit.
test('a foot and a mile are those of 1959', () => {
  expect(3 * foot_m).toBeCloseTo(0.9144, 12);
  expect(1760 * 0.9144).toBeCloseTo(mile_m, 9);
  expect(lengthTyped_m(1, 'feet', null)).toBe(0.3048);
  expect(lengthTyped_m(5280, 'feet', null)).toBe(1609.344);
  expect(lengthToType(1609.344, 'feet')).toBe(5280);
  expect(lengthToType(100, 'feet')).toBe(328.08);
});

// Fahrenheit by the fixed points it is defined by today: water freezes at 0 °C = 32 °F and boils at
// 100 °C = 212 °F; both scales agree at -40.
test.each([
  [0, 32],
  [100, 212],
  [-40, -40],
])('%s °C are %s °F', (celsius, fahrenheit) => {
  expect(toFahrenheit(celsius)).toBe(fahrenheit);
});

// Between the same two points lie 100 degrees of one scale and 180 of the other.
test('a difference of temperature has no 32 in it', () => {
  expect(differenceToFahrenheit(100)).toBe(180);
  expect(differenceToFahrenheit(0)).toBe(0);
});
