import { expect, test } from 'vitest';
import { positionText } from '../../../src/core/domain/position-text.ts';

test('a position is told to about a metre, north before east', () => {
  expect(positionText(27.123456, -74)).toBe('27.12346, -74.00000');
  expect(positionText(-33.5, 151.25)).toBe('-33.50000, 151.25000');
});
