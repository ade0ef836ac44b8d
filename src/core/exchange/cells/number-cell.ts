import type { Cell, CellContext, Reading } from './cell.ts';

const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;
const DECIMAL_COMMA = /^[+-]?\d*,\d+$/;
const GROUPED = /^[+-]?\d{1,3}([,.' ’\u00a0\u202f]\d{3})+([.,]\d+)?$/;
const WITH_UNIT = /^[+-]?\d[\d.,\s]*[^\d\s.,].*$/;
const NOTHING = /^(n\/?a|nan|null|none|-+|\?+|unknown)$/i;

interface Range {
  readonly min?: number;
  readonly max?: number;
}

/** A number within a range, both ends included; `what` is how a message names it. */
export function numberCell(what: string, { min, max }: Range = {}): Cell {
  return {
    expected: inRange(what, min, max),
    read: (text, context) => {
      const reading = readNumber(text, context);
      if (!reading.ok || typeof reading.value !== 'number') return reading;
      return outside(reading.value, min, max) ?? reading;
    },
  };
}

/** A whole number from `min` to `max`, both included. */
export function countCell(what: string, { min = 0, max }: Range = {}): Cell {
  return {
    expected: inRange(what === '' ? 'a whole number' : `a whole number of ${what}`, min, max),
    read: (text) => {
      // 27,4 would be no count either way, and 1,200 may be 1200: no decimal comma here.
      const reading = readNumber(text, { zone: '', decimalComma: false });
      if (!reading.ok || typeof reading.value !== 'number') return reading;
      if (!Number.isSafeInteger(reading.value)) {
        return { ok: false, advice: 'it is not a whole number' };
      }
      return outside(reading.value, min, max) ?? reading;
    },
  };
}

/** Numbers within a range, separated by semicolons. */
export function numberList(what: string, range: Range): Cell {
  const one = numberCell(what, range);
  return {
    expected: `${one.expected}, several separated by ;`,
    read: (text, context) => {
      const values: number[] = [];
      let warning: string | undefined;
      for (const part of text.split(';')) {
        if (part.trim() === '') continue;
        const reading = one.read(part.trim(), context);
        if (!reading.ok) return reading;
        if (typeof reading.value === 'number') values.push(reading.value);
        warning ??= reading.warning;
      }
      const value = values.length === 0 ? null : values;
      return warning === undefined ? { ok: true, value } : { ok: true, value, warning };
    },
  };
}

function readNumber(text: string, { decimalComma }: CellContext): Reading {
  if (NUMBER.test(text)) {
    // Adding zero makes 0 of -0.
    const value = Number(text) + 0;
    return Number.isFinite(value)
      ? { ok: true, value }
      : { ok: false, advice: 'it is too large for a number' };
  }
  if (decimalComma && DECIMAL_COMMA.test(text)) {
    const point = text.replace(',', '.');
    return { ok: true, value: Number(point) + 0, warning: `${text} read as ${Number(point)}` };
  }
  return { ok: false, advice: adviceOn(text) };
}

function adviceOn(text: string): string {
  if (NOTHING.test(text)) return 'leave the cell empty when it is not known';
  if (GROUPED.test(text)) return 'write it with a decimal point and no thousands separators';
  if (DECIMAL_COMMA.test(text)) return 'write it with a decimal point, not a comma';
  if (WITH_UNIT.test(text)) return 'write the number alone, without a unit or other signs';
  return 'write digits, with a decimal point if need be';
}

function outside(value: number, min?: number, max?: number): Reading | null {
  if (min !== undefined && value < min) {
    return { ok: false, advice: value < 0 && min === 0 ? 'it is negative' : 'it is too small' };
  }
  if (max !== undefined && value > max) return { ok: false, advice: 'it is too large' };
  return null;
}

function inRange(what: string, min?: number, max?: number): string {
  if (min !== undefined && max !== undefined) return `${what} from ${min} to ${max}`;
  if (min !== undefined) return `${what}, ${min} or more`;
  return max === undefined ? what : `${what}, at most ${max}`;
}
