/** A text without letter case, accents and punctuation: `Fecha (Puesta)` gives `fecha puesta`. */
export function plainText(text: string): string {
  return text
    .normalize('NFD')
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();
}

/** The words of a heading, without what stands in brackets and without the s of a plural. */
export function headingWords(heading: string): readonly string[] {
  const outside = plainText(heading.replace(/[([{][^)\]}]*[)\]}]/g, ' '));
  const plain = outside === '' ? plainText(heading) : outside;
  return plain
    .split(' ')
    .filter((word) => word !== '')
    .map(singular);
}

const singular = (word: string): string =>
  word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word;
