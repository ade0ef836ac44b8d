import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { entriesOf } from '../../scripts/catalogue.mjs';

const ROOT = join(import.meta.dirname, '../..');

const english = entriesOf(readFileSync(join(ROOT, 'src/words/en.po'), 'utf8'));

/** A mark, what else is said of the text, and the text between single quotation marks. */
const MARKED = /@wc-include \*\/\s*(?:\/\*.*?\*\/\s*)*'((?:[^'\\]|\\.)*)'/g;

/** In a component a mark behind a comma counts for what stands before the comma, so it is lost there. */
test('every word that is marked as one for people is gathered from where it stands', () => {
  const marked = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|svelte)$/.test(name))
    .map((name) => join('src', name))
    .flatMap((file) =>
      [...readFileSync(join(ROOT, file), 'utf8').matchAll(MARKED)].map(([, word]) => ({
        file,
        word,
      })),
    );
  expect(marked.length).toBeGreaterThan(200);
  expect(
    marked.filter(
      ({ file, word }) =>
        !english.some((entry) => entry.english === word && entry.files.includes(file)),
    ),
  ).toEqual([]);
});
