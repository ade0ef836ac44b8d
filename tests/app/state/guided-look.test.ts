import { expect, test } from 'vitest';
import { GuidedLook } from '../../../src/app/state/guided-look.svelte.ts';
import { guideStops } from '../../../src/app/state/guide-stops.ts';
import { hashOf, readRoute } from '../../../src/app/state/route.ts';

test('goes from the first stop to the last, back on the way, and is over after it', () => {
  const guide = new GuidedLook();
  expect(guide.at).toBeNull();
  guide.next();
  expect(guide.at).toBeNull();
  guide.begin();
  guide.back();
  expect(guide.at).toBe(0);
  guide.next();
  guide.next();
  guide.back();
  expect(guide.at).toBe(1);
  for (let left = guideStops.length - 2; left > 0; left--) guide.next();
  expect(guide.isLast).toBe(true);
  guide.next();
  expect(guide.at).toBeNull();
});

test('can be left anywhere', () => {
  const guide = new GuidedLook();
  guide.begin();
  guide.next();
  guide.end();
  expect(guide.at).toBeNull();
});

test('every stop is a place that an address leads to, with a nest and without one', () => {
  for (const { route } of guideStops) {
    for (const nest of ['W-034', null]) {
      expect(readRoute(hashOf(route(nest)))).toEqual(route(nest));
    }
  }
});
