import { expect, test } from 'vitest';
import { languageOf } from '../../src/words/languages.ts';

test('what was chosen on the device goes before what the system wishes', () => {
  expect(languageOf('es', ['en-GB'])).toBe('es');
  expect(languageOf('en', ['es'])).toBe('en');
});

test('the first wish that is there is met, whatever the country', () => {
  expect(languageOf(null, ['es-MX', 'en'])).toBe('es');
  expect(languageOf(null, ['ES', 'en'])).toBe('es');
  expect(languageOf(null, ['pt-BR', 'es-ES', 'en'])).toBe('es');
});

test('English where none of the wishes is there, and no wish is taken for its like', () => {
  expect(languageOf(null, ['pt', 'fr-FR'])).toBe('en');
  expect(languageOf(null, [])).toBe('en');
  expect(languageOf(null, ['est'])).toBe('en');
});
