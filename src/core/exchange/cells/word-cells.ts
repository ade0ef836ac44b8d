import { Species, readSpecies } from '../../domain/species.ts';
import type { Cell } from './cell.ts';

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, ' ');

/** One of a closed list of words; letter case and spaces do not matter. */
export function oneOf(words: readonly string[]): Cell {
  const expected = `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
  return {
    expected,
    read: (text) => {
      const word = words.find((candidate) => candidate === plain(text));
      if (word !== undefined) return { ok: true, value: word };
      return { ok: false, advice: 'use one of these words, or leave the cell empty' };
    },
  };
}

/** Words of a closed list separated by semicolons; each once, none at all is blank. */
export function someOf(words: readonly string[]): Cell {
  const one = oneOf(words);
  return {
    expected: `some of ${words.join(', ')}, separated by ;`,
    read: (text, context) => {
      const found = new Set<string>();
      for (const part of text.split(';')) {
        if (part.trim() === '') continue;
        const reading = one.read(part, context);
        if (!reading.ok) return { ok: false, advice: `use only these words; found ${part.trim()}` };
        if (typeof reading.value === 'string') found.add(reading.value);
      }
      return { ok: true, value: found.size === 0 ? null : [...found] };
    },
  };
}

const yes = new Set(['yes', 'y', 'true', '1']);
const no = new Set(['no', 'n', 'false', '0']);

/** Yes or no in the ways that spreadsheets write it. */
export const yesNo: Cell = {
  expected: 'yes or no',
  read: (text) => {
    const word = plain(text);
    if (yes.has(word)) return { ok: true, value: true };
    if (no.has(word)) return { ok: true, value: false };
    return { ok: false, advice: 'write yes or no, or leave the cell empty when it is not known' };
  },
};

/** A species by scientific name, English name or ASFIS code. */
export const speciesCell: Cell = {
  expected: `a species: ${Species.options.join(', ')}`,
  read: (text) => {
    const species = readSpecies(text);
    if (species !== null) return { ok: true, value: species };
    return {
      ok: false,
      advice: 'check the spelling, or leave the cell empty when it is not known',
    };
  },
};
