import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { entriesOf, missingFrom, spacedAtEnds } from '../../scripts/catalogue.mjs';
import { languages } from '../../src/words/languages.ts';

function catalogue(language: string): string {
  return readFileSync(join(import.meta.dirname, '../../src/words', `${language}.po`), 'utf8');
}

/** What a text must keep in every language: `{0}`, `<0>`, `</0>`, `<1/>`. */
function marks(text: string): readonly string[] {
  return [...text.matchAll(/\{\d+\}|<\/?\d+\/?>/g)].map(([mark]) => mark).sort();
}

describe.each(languages)('the words of %s', (language) => {
  const text = catalogue(language);
  const entries = entriesOf(text);

  test('are all there', () => {
    expect(entries.length).toBeGreaterThan(1500);
    expect(entries.filter(({ shown }) => shown.trim() === '')).toEqual([]);
  });

  test('keep every value and every tag of the English text', () => {
    const changed = entries.filter(
      ({ english, shown }) => marks(english).join(' ') !== marks(shown).join(' '),
    );
    expect(changed).toEqual([]);
  });

  test('neither begin nor end with a space, which would be there or not by chance', () => {
    expect(entries.filter(({ shown }) => shown !== shown.trim())).toEqual([]);
    expect(spacedAtEnds(entries)).toEqual([]);
  });

  test('hold none that the app no longer says', () => {
    expect(text).not.toMatch(/^#~/m);
  });
});

test('a text that the code says anew is named, with its meaning where it has several', () => {
  const files: readonly string[] = [];
  const share = { context: 'proportion', english: 'Share', shown: 'Proporción', files };
  const nest = { context: '', english: 'Nest {0}', shown: 'Nido {0}', files };
  const handOn = { context: '', english: 'Share', shown: 'Compartir', files };
  expect(missingFrom([nest, handOn], [share, nest])).toEqual(['Share (proportion)']);
  expect(missingFrom([share, nest], [nest])).toEqual([]);
});

test('a text that begins or ends with a space is named, with the files it stands in', () => {
  const said = [
    { english: ' with nest {0}', files: ['src/app/saved.svelte'] },
    { english: 'late watch,\n', files: ['src/app/nights.svelte', 'src/core/nights.ts'] },
    { english: 'Nest {0}', files: ['src/app/saved.svelte'] },
  ];
  expect(spacedAtEnds(said)).toEqual([
    '" with nest {0}" in src/app/saved.svelte',
    '"late watch,\\n" in src/app/nights.svelte, src/core/nights.ts',
  ]);
});
