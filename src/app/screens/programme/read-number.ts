import { type Measures, lengthTyped_m } from '../../../core/domain/measures.ts';
import type { SettingKind } from '../../../core/season-report/programme-settings.ts';

/** A number from a form; null when the field was left empty. */
export type ReadNumber =
  | { readonly ok: true; readonly value: number | null }
  | { readonly ok: false; readonly message: string };

const PLAIN = /^[+-]?\d+(\.\d+)?$/;

/** Decimal degrees no farther from zero than `limit`. A decimal comma is read as a point. */
export function readDegrees(text: string, limit: 90 | 180): ReadNumber {
  const read = readDecimal(text);
  if (!read.ok || read.value === null || Math.abs(read.value) <= limit) return read;
  return { ok: false, message: `${text} is not between -${limit} and ${limit}.` };
}

/** Metres of a stretch of shore typed in the measures chosen, more than zero. */
export function readLength_m(text: string, measures: Measures): ReadNumber {
  const read = readDecimal(text);
  if (!read.ok || read.value === null) return read;
  const value = lengthTyped_m(read.value, measures, null);
  return value > 0 ? { ok: true, value } : { ok: false, message: 'A length is more than zero.' };
}

/** A whole number from zero up. */
export function readCount(text: string): ReadNumber {
  const read = readDecimal(text);
  if (!read.ok || read.value === null) return read;
  if (Number.isInteger(read.value) && read.value >= 0) return read;
  return { ok: false, message: `Expected a whole number, saw “${text}”.` };
}

/** A setting as it is typed: a whole number, or percents of a share (0 to 100); gives a share as 0..1. */
export function readSetting(text: string, kind: SettingKind): ReadNumber {
  const read = readDecimal(text);
  if (!read.ok || read.value === null) return read;
  if (kind.kind === 'share') {
    if (read.value >= 0 && read.value <= 100) return { ok: true, value: read.value / 100 };
    return { ok: false, message: `Expected percents from 0 to 100, saw “${text}”.` };
  }
  if (Number.isInteger(read.value) && read.value >= kind.least) return read;
  return { ok: false, message: `Expected a whole number from ${kind.least} on, saw “${text}”.` };
}

function readDecimal(text: string): ReadNumber {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return { ok: true, value: null };
  if (!PLAIN.test(plain)) {
    return { ok: false, message: `Expected a decimal number such as 27.25, saw “${text}”.` };
  }
  return { ok: true, value: Number(plain) };
}
