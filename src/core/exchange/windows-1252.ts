/**
 * The letters of the bytes 0x80 to 0x9F in Windows-1252, as the WHATWG Encoding Standard's index
 * has them (from memory); bytes that mean nothing there stand for themselves.
 */
const HIGH =
  '\u20ac\u0081\u201a\u0192\u201e\u2026\u2020\u2021\u02c6\u2030\u0160\u2039\u0152\u008d\u017d\u008f' +
  '\u0090\u2018\u2019\u201c\u201d\u2022\u2013\u2014\u02dc\u2122\u0161\u203a\u0153\u009d\u017e\u0178';

/**
 * Windows-1252 text out of Latin-1 text. Some versions of Node decode the one as the other; where
 * the decoder did well there is nothing left to do.
 */
export function windows1252(latin1: string): string {
  return latin1.replace(/[\u0080-\u009f]/g, (letter) => HIGH.charAt(letter.charCodeAt(0) - 0x80));
}
