import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NestId } from '../../../src/core/domain/nest.ts';
import { asNight } from '../../../src/core/domain/night.ts';
import { type BoilCount } from '../../../src/core/emergence/boil-count.ts';
import { emergenceTotals } from '../../../src/core/emergence/emergence-total.ts';

const orNothing = fc.option(fc.integer({ min: 0, max: 60 }), { nil: null });
const counts: fc.Arbitrary<BoilCount[]> = fc
  .array(
    fc.record({
      night: fc.integer({ min: 20_654, max: 20_656 }).map(asNight),
      counter: fc.constantFrom('Ada', 'Bo', null),
      emergence: fc.constantFrom('boil', 'stragglers'),
      isCounted: fc.boolean(),
      counting: fc.constantFrom('part', 'whole'),
      emerged: fc.integer({ min: 1, max: 60 }),
      reachedWater: orNothing,
      astray: orNothing,
      taken: orNothing,
      first_ms: orNothing,
      last_ms: orNothing,
    }),
    { minLength: 1, maxLength: 8 },
  )
  .map((list) =>
    list.map((one, index) => ({ ...one, id: `count-${index}`, nest: NestId.parse('W-1') })),
  );

test('counts of one boil come to the same in whatever order two records are merged', () => {
  const pairs = counts.chain((list) =>
    fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })),
  );
  fc.assert(
    fc.property(pairs, ([one, other]) => {
      expect(emergenceTotals(other)).toEqual(emergenceTotals(one));
    }),
    { seed: 20_260_720, numRuns: 300 },
  );
});

test('a total is never less than any count in it, nor more than all of them together', () => {
  fc.assert(
    fc.property(counts, (list) => {
      for (const total of emergenceTotals(list)) {
        const emerged = total.counts.map((count) => count.emerged);
        expect(total.emerged).toBeGreaterThanOrEqual(Math.max(...emerged));
        expect(total.emerged).toBeLessThanOrEqual(emerged.reduce((sum, one) => sum + one, 0));
      }
    }),
    { seed: 20_260_720, numRuns: 300 },
  );
});
