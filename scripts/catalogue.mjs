// The texts of src/words, as wuchale writes them (gettext).

/** The texts of a catalogue. Its first piece is its head. */
export function entriesOf(catalogue) {
  return catalogue
    .split('\n\n')
    .slice(1)
    .map((piece) => ({
      context: field(piece, 'msgctxt'),
      english: field(piece, 'msgid'),
      shown: field(piece, 'msgstr'),
      files: [...piece.matchAll(/^#: (.*)$/gm)].map(([, file]) => file),
    }));
}

function field(piece, name) {
  const [, lines = ''] = new RegExp(`^${name} ((?:".*"\\n?)+)`, 'm').exec(piece) ?? [];
  return [...lines.matchAll(/".*"/g)].map(([part]) => JSON.parse(part)).join('');
}

/** Names the texts that `wanted` has and `kept` has not. */
export function missingFrom(kept, wanted) {
  const known = new Set(kept.map(named));
  return wanted.map(named).filter((name) => !known.has(name));
}

/**
 * Names the texts that begin or end with a space, and where they stand. A catalogue knows a text
 * without it, so whether the space is shown hangs on which file was read first.
 */
export function spacedAtEnds(said) {
  return said
    .filter(({ english }) => english !== english.trim())
    .map(({ english, files }) => `${JSON.stringify(english)} in ${files.join(', ')}`);
}

/** `Share (proportion)` where an English text has several meanings. */
function named({ context, english }) {
  return context === '' ? english : `${english} (${context})`;
}
