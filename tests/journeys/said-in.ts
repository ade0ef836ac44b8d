import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { entriesOf } from '../../scripts/catalogue.mjs';
import type { Language } from '../../src/words/languages.ts';

/** The texts of the code in one language, and what is not in it. */
export interface SaidIn {
  /** What is shown for a text of the code. Throws when the code has no such text. */
  say(english: string): string;
  /** Those of the texts seen that are English where the language says something else. */
  notSaidSo(seen: Iterable<string>): readonly string[];
}

/** So many letters of its own make a pattern one that does not fit anything. */
const LEAST_LETTERS = 3;

export function saidIn(language: Exclude<Language, 'en'>): SaidIn {
  const path = join(import.meta.dirname, '../../src/words', `${language}.po`);
  const entries = entriesOf(readFileSync(path, 'utf8'));
  const shown = patternsOf(entries.map((entry) => entry.shown));
  const english = patternsOf(
    entries.filter((entry) => entry.english !== entry.shown).map((entry) => entry.english),
  );
  const fits = (patterns: readonly RegExp[], text: string): boolean =>
    patterns.some((pattern) => pattern.test(text));
  return {
    say(text) {
      const entry = entries.find((one) => one.english === text && one.context === '');
      if (entry === undefined) throw new Error(`The app does not say "${text}".`);
      return entry.shown;
    },
    notSaidSo: (seen) => [...seen].filter((text) => fits(english, text) && !fits(shown, text)),
  };
}

/** The texts and their parts between tags, each with anything where a value stands. */
function patternsOf(texts: Iterable<string>): readonly RegExp[] {
  const parts = [...texts].flatMap((text) => text.split(/<\/?\d+\/?>/).map((part) => part.trim()));
  return [...new Set(parts)]
    .filter((part) => isOwn(part))
    .map(
      (part) =>
        new RegExp(
          `^${part
            .split(/\{\d+\}/)
            .map(plainly)
            .join('.+')}$`,
          's',
        ),
    );
}

/** A whole text may be short, one with values in it must not fit whatever is there. */
function isOwn(part: string): boolean {
  const letters = part.replace(/\{\d+\}/g, '').match(/\p{L}/gu)?.length ?? 0;
  return letters >= (/\{\d+\}/.test(part) ? LEAST_LETTERS : 1);
}

function plainly(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
