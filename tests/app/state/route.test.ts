import { expect, test } from 'vitest';
import { hashOf, readRoute, type Route } from '../../../src/app/state/route.ts';

const routes: readonly Route[] = [
  { screen: 'welcome' },
  { screen: 'tonight' },
  { screen: 'note', nest: null },
  { screen: 'note', nest: 'W-014' },
  { screen: 'note', nest: 'Dune 3/b é' },
  { screen: 'nest', nest: 'W-014', part: '' },
  { screen: 'nest', nest: 'W 14?', part: 'correct/0197-a' },
  { screen: 'register' },
  { screen: 'boil', nest: null },
  { screen: 'boil', nest: 'W 14?' },
  { screen: 'orientation', nest: 'W-014', part: '' },
  { screen: 'orientation', nest: 'W-014', part: 'report/0197-a' },
  { screen: 'inventory', nest: null },
  { screen: 'inventory', nest: 'Dune 3/b é' },
  { screen: 'programme', part: 'overview' },
  { screen: 'programme', part: 'people' },
];

test.each(routes)('an address leads back to where it was made: %o', (route) => {
  expect(readRoute(hashOf(route))).toEqual(route);
});

test.each(['', '#', '#/', '#/elsewhere', '#/nest', '#/nest/'])(
  'an address that names no place is Tonight: %s',
  (hash) => {
    expect(readRoute(hash)).toEqual({ screen: 'tonight' });
  },
);

test('an address that is no proper text does not break the page', () => {
  expect(readRoute('#/nest/%E0%A4%A')).toEqual({ screen: 'nest', nest: '%E0%A4%A', part: '' });
});
