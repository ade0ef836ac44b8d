/** The languages that every word of the app is there in. */
export const languages = ['en', 'es'] as const;
export type Language = (typeof languages)[number];

/**
 * The language to show: the one that was chosen on this device, else the first of those the system
 * wishes for (BCP 47 tags, such as `es-MX`) that there is, else English.
 */
export function languageOf(chosen: Language | null, wished: readonly string[]): Language {
  if (chosen !== null) return chosen;
  const known = wished.map((tag) =>
    languages.find((name) => tag.toLowerCase().split('-')[0] === name),
  );
  return known.find((name) => name !== undefined) ?? 'en';
}
