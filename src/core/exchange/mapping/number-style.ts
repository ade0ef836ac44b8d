/** What a comma in a number stands for: 27,4 or 1,200. */
export const commas = ['decimal', 'thousands'] as const;
export type Comma = (typeof commas)[number];

export type CommaTold =
  | { readonly told: 'no matter' }
  | { readonly told: 'one'; readonly comma: Comma }
  | { readonly told: 'several'; readonly example: string };

const ONE_COMMA = /^[+-]?\d{1,3},\d{3}$/;
const GROUPS = /^[+-]?\d{1,3}(,\d{3})+\.\d+$|^[+-]?\d{1,3}(,\d{3}){2,}$/;
const DECIMAL = /^[+-]?(\d*,(\d{1,2}|\d{4,})|\d{1,3}(\.\d{3})+,\d+|0\d*,\d+|\d{4,},\d+)$/;

/** What the commas of a column are, from all its values. */
export function tellComma(texts: readonly string[]): CommaTold {
  const numbers = texts.map((text) => /[+-]?\d[\d.,]*|[+-]?,\d+/.exec(text.trim())?.[0] ?? '');
  const decimal = numbers.some((text) => DECIMAL.test(text));
  const thousands = numbers.some((text) => GROUPS.test(text));
  if (decimal !== thousands) return { told: 'one', comma: decimal ? 'decimal' : 'thousands' };
  const example = numbers.find((text) => ONE_COMMA.test(text) || (decimal && text.includes(',')));
  return example === undefined ? { told: 'no matter' } : { told: 'several', example };
}

const PLAIN = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;

/** The number written with a decimal point and nothing else; null when it is none. */
export function plainNumber(text: string, comma: Comma): string | null {
  const tight = text.trim().replace(/(?<=\d)[ '’\u00a0\u202f](?=\d{3}(\D|$))/g, '');
  if (PLAIN.test(tight) && !(comma === 'decimal' && /^[+-]?\d{1,3}(\.\d{3}){2,}$/.test(tight))) {
    return tight;
  }
  if (comma === 'thousands') {
    return /^[+-]?\d{1,3}(,\d{3})+(\.\d*)?$/.test(tight) ? tight.replaceAll(',', '') : null;
  }
  if (!/^[+-]?(\d*|\d{1,3}(\.\d{3})+),\d+$/.test(tight)) return null;
  return tight.replaceAll('.', '').replace(',', '.');
}
