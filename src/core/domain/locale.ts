/** The tag by which Intl knows the language that is shown; the catalogues give that of each. */
export const localeTag = /* @wc-include */ 'en-GB';

// Made when first used: the first one of a page is dear on a slow phone.
let counts: Intl.NumberFormat | null = null;
let decimalMark: string | null = null;
let lists: Intl.ListFormat | null = null;

/** A number for people with so many digits behind the mark of the language: `0.50`, `0,50`. */
export function fixedText(value: number, digits: number): string {
  return marked(value.toFixed(digits));
}

/** A number for people with all its digits: `38.5`, `38,5`. */
export function numberText(value: number): string {
  return marked(String(value));
}

/** A count for people, grouped as the language does: `12,345`, `12.345`. */
export function countOf(value: number): string {
  return grouped().format(value);
}

/** `Ada, Bo and Cy`, `Ada, Bo y Cy`. */
export function listWords(names: readonly string[]): string {
  lists ??= new Intl.ListFormat(localeTag, { type: 'conjunction' });
  return lists.format(names);
}

/** Order of names for people, `W-9` before `W-10`. */
export function compareNames(a: string, b: string): number {
  return a.localeCompare(b, localeTag, { numeric: true });
}

function marked(digits: string): string {
  if (!digits.includes('.')) return digits;
  decimalMark ??=
    grouped()
      .formatToParts(0.5)
      .find(({ type }) => type === 'decimal')?.value ?? '.';
  return digits.replace('.', decimalMark);
}

function grouped(): Intl.NumberFormat {
  return (counts ??= new Intl.NumberFormat(localeTag, { useGrouping: true }));
}
