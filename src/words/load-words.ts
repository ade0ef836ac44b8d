import { loadLocale } from 'wuchale/load-utils';
import type { Language } from './languages.ts';
import './modules.loader.js';
import './screens.loader.js';

/**
 * Loads the words of a language. A module takes its words when it is evaluated: what has any must be
 * imported after this, by `import()`.
 */
export function loadWords(language: Language): Promise<void> {
  return loadLocale(language);
}
