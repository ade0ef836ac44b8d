import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { languages } from '../../src/words/languages.ts';

/** One text of a catalogue: what stands in the code, what is shown. */
interface Entry {
  readonly english: string;
  readonly shown: string;
}

function catalogue(language: string): string {
  return readFileSync(join(import.meta.dirname, '../../src/words', `${language}.po`), 'utf8');
}

/** The texts of a catalogue. Its first piece is its head. */
function entriesOf(text: string): readonly Entry[] {
  return text
    .split('\n\n')
    .slice(1)
    .map((piece) => ({ english: field(piece, 'msgid'), shown: field(piece, 'msgstr') }));
}

function field(piece: string, name: string): string {
  const [, lines = ''] = new RegExp(`^${name} ((?:".*"\\n?)+)`, 'm').exec(piece) ?? [];
  return [...lines.matchAll(/".*"/g)].map(([part]) => String(JSON.parse(part))).join('');
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

  test('hold none that the app no longer says', () => {
    expect(text).not.toMatch(/^#~/m);
  });
});
