import { expect, test } from 'vitest';
import { asNight } from '../../../src/core/domain/night.ts';
import type { Glance } from '../../../src/core/forecast/glance.ts';
import { GlanceShelf } from '../../../src/edges/store/glance-shelf.ts';
import { ScratchShelf } from '../../builders/scratch-shelf.ts';

const glance = (p: number): Glance => ({
  at_ms: 1_785_000_000_000,
  zone: 'America/New_York',
  programme: 'Invented coast',
  nights: [{ night: asNight(20_660), nests: [{ nest: 'W-14', zone: null, p }] }],
});

test('what was kept is read back, until it is forgotten', () => {
  const shelf = new GlanceShelf(new ScratchShelf());
  expect(shelf.read()).toBeNull();
  shelf.keep(glance(0.4));
  expect(shelf.read()).toEqual(glance(0.4));
  shelf.forget();
  expect(shelf.read()).toBeNull();
});

test.each(['{', '"odds"', '{"nights":[]}', '{"at_ms":1,"zone":"","programme":null,"nights":[{}]}'])(
  'what is damaged is done without: %s',
  (text) => {
    const kept = new ScratchShelf();
    kept.text = text;
    expect(new GlanceShelf(kept).read()).toBeNull();
  },
);

test('where there is no room for new odds the old ones are not left to be taken for them', () => {
  const kept = new ScratchShelf();
  const shelf = new GlanceShelf(kept);
  shelf.keep(glance(0.4));
  kept.isFull = true;
  shelf.keep(glance(0.1));
  expect(shelf.read()).toBeNull();
});

test('where nothing can be kept there is none, and nobody is troubled', () => {
  const shelf = new GlanceShelf(null);
  shelf.keep(glance(0.4));
  shelf.forget();
  expect(shelf.read()).toBeNull();
});
