import { expect, test } from 'vitest';
import { moonText } from '../../../src/core/sky/moon-text.ts';

const view = { azimuth_deg: 100, altitude_deg: 34.4, illuminatedShare: 0.81, waxing: true };

test('the Moon is told by phase, by how much of it is lit, and by where it stands', () => {
  expect(moonText(view)).toBe('waxing gibbous, 81 % lit, 34 degrees above the horizon');
  expect(moonText({ ...view, altitude_deg: -3, waxing: false, illuminatedShare: 0.2 })).toBe(
    'waning crescent, 20 % lit, below the horizon',
  );
});

test.each([
  [0.005, 'new moon'],
  [0.5, 'waxing half moon'],
  [0.99, 'full moon'],
])('a disc lit by %d is %s', (illuminatedShare, name) => {
  expect(moonText({ ...view, illuminatedShare })).toMatch(new RegExp(`^${name},`));
});
