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

/** Metres of a stretch of shore, more than zero. */
export function readLength_m(text: string): ReadNumber {
  const read = readDecimal(text);
  if (!read.ok || read.value === null || read.value > 0) return read;
  return { ok: false, message: 'A length is more than 0 m.' };
}

/** A whole number from zero up. */
export function readCount(text: string): ReadNumber {
  const read = readDecimal(text);
  if (!read.ok || read.value === null) return read;
  if (Number.isInteger(read.value) && read.value >= 0) return read;
  return { ok: false, message: `Expected a whole number, saw “${text}”.` };
}

function readDecimal(text: string): ReadNumber {
  const plain = text.trim().replace(',', '.');
  if (plain === '') return { ok: true, value: null };
  if (!PLAIN.test(plain)) {
    return { ok: false, message: `Expected a decimal number such as 27.25, saw “${text}”.` };
  }
  return { ok: true, value: Number(plain) };
}
