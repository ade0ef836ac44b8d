import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Measures, lengthToType, lengthTyped_m } from '../../../src/core/domain/measures.ts';

const measures = fc.constantFrom(...Measures.options);

test('a length on record that is shown in a field and read from it is the same length', () => {
  fc.assert(
    fc.property(
      measures,
      fc.double({ min: -100_000, max: 100_000, noNaN: true }),
      (unit, held_m) => {
        // As a field holds it: a text.
        const typed = Number(String(lengthToType(held_m, unit)));
        expect(lengthTyped_m(typed, unit, held_m)).toBe(held_m);
      },
    ),
    { seed: 20261126 },
  );
});

test('a length that was typed to a hundredth is shown again as it was typed', () => {
  fc.assert(
    fc.property(measures, fc.integer({ min: -10_000_000, max: 10_000_000 }), (unit, hundredths) => {
      const typed = hundredths / 100;
      expect(lengthToType(lengthTyped_m(typed, unit, null), unit)).toBe(typed);
    }),
    { seed: 20261126 },
  );
});
