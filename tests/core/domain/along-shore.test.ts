import { expect, test } from 'vitest';
import { alongShore_m } from '../../../src/core/domain/along-shore.ts';
import type { Nest } from '../../../src/core/domain/nest.ts';
import { SeasonBuilder } from '../../builders/season.ts';

function nests(places: Readonly<Record<string, object>>): Nest[] {
  const season = new SeasonBuilder();
  for (const [id, details] of Object.entries(places)) season.nest(id, details);
  return [...season.record().nests.values()].map(({ nest }) => nest);
}

/** A point on a shore that runs north-east, `m` metres along it. */
const onShore = (m: number) => ({
  latitude: 27 + (m * Math.SQRT1_2) / 111_195,
  longitude: -80 + (m * Math.SQRT1_2) / (111_195 * Math.cos((27 * Math.PI) / 180)),
});

test('the told distance stands, whatever the position says', () => {
  const along = alongShore_m(nests({ A: { shore_m: 120, ...onShore(900) }, B: { shore_m: 40 } }));
  expect([...along.values()]).toEqual([120, 40]);
});

test('positions alone give distances from the southernmost nest', () => {
  const along = alongShore_m(nests({ A: onShore(500), B: onShore(0), C: onShore(1200) }));
  expect(along.get('B' as never)).toBeCloseTo(0, 0);
  expect(along.get('A' as never)).toBeCloseTo(500, 0);
  expect(along.get('C' as never)).toBeCloseTo(1200, 0);
});

test('a nest without told distance is placed between its neighbours, also when distance grows southward', () => {
  const along = alongShore_m(
    nests({
      A: { shore_m: 2000, ...onShore(0) },
      B: { shore_m: 1000, ...onShore(1000) },
      C: onShore(400),
    }),
  );
  expect(along.get('C' as never)).toBeCloseTo(1600, 0);
});

test('a nest with neither is left out', () => {
  expect(alongShore_m(nests({ A: {}, B: { shore_m: 5 } })).size).toBe(1);
});
