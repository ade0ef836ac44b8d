/** What a spreadsheet would run, or could be led to run, when a cell begins with it. */
const RUNS = /^[=+\-@\t\r]/;
const PLAIN_NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;
/** Apostrophes before something that would run: the guard, or text that looks like one. */
const GUARDED = /^'+[=+\-@\t\r]/;

/**
 * The text of a cell as it is written. Text that already looks guarded gains one apostrophe, so
 * that reading gives it back; with `guard` so does text that a spreadsheet would run as a formula.
 */
export function guarded(text: string, guard: boolean): string {
  if (GUARDED.test(text)) return `'${text}`;
  return guard ? guardedRaw(text) : text;
}

/** Cell text from a file with an apostrophe before what would run. Plain numbers are left alone. */
export function guardedRaw(raw: string): string {
  return RUNS.test(raw) && !PLAIN_NUMBER.test(raw) ? `'${raw}` : raw;
}

/** The text of a cell without the apostrophe that `guarded` put before it. */
export function unguarded(text: string): string {
  return text.charCodeAt(0) === 39 && GUARDED.test(text) ? text.slice(1) : text;
}
