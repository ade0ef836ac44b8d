import { type AppliedSheet, takenAsItIs } from './apply-mapping.ts';
import { tableNamed } from './find-sheets.ts';
import { type JoinedSheets, joinSheets } from './join-sheets.ts';
import { readSheet } from './sheet.ts';

/** The files of a season: sheets that were matched, and what came beside them in our own words. */
export function filesOf(
  rest: ReadonlyMap<string, Uint8Array>,
  sheets: readonly AppliedSheet[],
): JoinedSheets {
  const tables = new Set(sheets.map(({ table }) => table));
  const all = [...sheets];
  const files = new Map<string, Uint8Array>();
  for (const [path, bytes] of rest) {
    const table = tableNamed(path);
    const sheet = table !== null && tables.has(table) ? readSheet(path, bytes) : null;
    if (table !== null && sheet !== null) all.unshift(takenAsItIs(sheet, table));
    else files.set(path, bytes);
  }
  const joined = joinSheets(all);
  return { files: new Map([...files, ...joined.files]), tell: joined.tell };
}
