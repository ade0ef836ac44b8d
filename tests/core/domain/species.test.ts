import { expect, test } from 'vitest';
import { readSpecies } from '../../../src/core/domain/species.ts';

test.each([
  ['caretta  CARETTA', 'Caretta caretta'],
  ['Loggerhead sea turtle', 'Caretta caretta'],
  ['Kemp’s ridley', 'Lepidochelys kempii'],
  ['TTL', 'Caretta caretta'],
  ['flatback turtle', 'Natator depressus'],
])('%s is understood', (text, species) => {
  expect(readSpecies(text)).toBe(species);
});

test.each(['', 'turtle', 'constructor', '__proto__', 'tortoise'])(
  '“%s” is no sea turtle',
  (text) => {
    expect(readSpecies(text)).toBeNull();
  },
);
