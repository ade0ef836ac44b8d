/**
 * What a record of texts holds under a key; undefined when nothing. Headings and words of any file
 * are keys, and every record seems to have one named `constructor`.
 */
export function ownText(
  texts: Readonly<Record<string, string>> | undefined,
  key: string,
): string | undefined {
  return texts !== undefined && Object.hasOwn(texts, key) ? texts[key] : undefined;
}
