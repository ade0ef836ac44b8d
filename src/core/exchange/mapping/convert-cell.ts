import type { Changes } from './changes.ts';
import { plainNumber } from './number-style.ts';
import { wordChosen } from './mapping.ts';
import { plainText } from './plain-words.ts';
import { plainDegrees } from './position-text.ts';
import type { ColumnReading } from './questions.ts';
import { inOurUnit, numberWithUnit, unitText, unitsOf } from './units.ts';
import { saysNothing, wordMeant } from './words.ts';

/** A cell as our table has it; `found` when its own text must be carried along. */
export interface Converted {
  readonly text: string;
  readonly found?: string;
}

/**
 * One cell that needs no other cell of its row, as our table has it. What cannot be read stays as
 * it is: the reading of the table says then what is wrong with it.
 */
export function convertCell(
  text: string,
  { target, comma, unit, words, isOpen }: ColumnReading,
  heading: string,
  changes: Changes,
): Converted {
  if (target.kind === 'name' || target.kind === 'as it is' || text === '' || isOpen)
    return { text };
  const tell = (kind: string, message: string): void => changes.add(heading, kind, message);
  if (target.kind === 'word') {
    const sure = wordMeant(text, target.list);
    if (sure !== null) {
      if (plainText(text) !== plainText(sure)) tell(plainText(text), `“${text}” read as ${sure}`);
      return { text: sure };
    }
    const chosen = wordChosen(words, text);
    if (chosen !== undefined) {
      const means = chosen === '' ? 'left blank' : `read as ${chosen}`;
      tell(plainText(text), `“${text}” ${means} as you chose; the word itself is kept beside it`);
      return { text: chosen, found: text };
    }
  }
  if (saysNothing(text)) {
    tell('nothing', `“${text}” read as blank: not known`);
    return { text: '' };
  }
  if (target.kind === 'number' || target.kind === 'position') {
    return { text: number(text, { target, comma, unit }, tell) };
  }
  return { text };
}

function number(
  text: string,
  { target, comma, unit }: Pick<ColumnReading, 'target' | 'comma' | 'unit'>,
  tell: (kind: string, message: string) => void,
): string {
  if (target.kind === 'position') {
    const degrees = plainDegrees(text);
    if (degrees !== null) {
      if (degrees !== text) tell('degrees', `${text} read as ${degrees} degrees`);
      return degrees;
    }
  }
  const plain = plainNumber(text, comma);
  if (plain === null) {
    const own = numberWithUnit(text, unitsOf(target.column.name), comma);
    if (own === null) return text;
    const value = inOurUnit(own.number, own.unit);
    tell(`own ${own.unit}`, `${text} read as ${value}, from ${unitText(own.unit)}`);
    return value;
  }
  if (unit === null || inOurUnit(plain, unit) === plain) {
    if (plain !== text) tell('number', `${text} read as ${plain}`);
    return plain;
  }
  const value = inOurUnit(plain, unit);
  tell('unit', `${text} read as ${value}, from ${unitText(unit)}`);
  return value;
}
