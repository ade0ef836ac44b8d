import { fold } from '../../src/core/log/fold.ts';
import {
  type ReadSeason,
  readSeasonFolder,
} from '../../src/core/exchange/season-folder/read-season-folder.ts';
import { writeSeasonFolder } from '../../src/core/exchange/season-folder/write-season-folder.ts';
import type { SeasonRecord } from '../../src/core/log/season-record.ts';

export const NOON_MS = Date.UTC(2026, 6, 20, 16);

/** Files by name, out of texts (UTF-8) or bytes. */
export function files(
  contents: Readonly<Record<string, string | Uint8Array>>,
): ReadonlyMap<string, Uint8Array> {
  return new Map(
    Object.entries(contents).map(([name, content]) => [
      name,
      typeof content === 'string' ? new TextEncoder().encode(content) : content,
    ]),
  );
}

export const importer = {
  zone: 'America/New_York',
  author: 'Ada',
  device: 'test',
  now_ms: NOON_MS,
} as const;

/** Reads a folder given as texts by file name. */
export function read(
  contents: Readonly<Record<string, string | Uint8Array>>,
  into?: SeasonRecord,
): ReadSeason {
  return readSeasonFolder(files(contents), {
    ...importer,
    ...(into === undefined ? {} : { into }),
  });
}

/** One good nest and nothing else, for tests about other tables. */
export const oneNest = 'nest,lay_night\nW-1,2026-05-20\n';

/** Each problem as `file:row:column severity`. */
export function places({ problems }: ReadSeason): readonly string[] {
  return problems.map(
    ({ file, row, column, severity }) =>
      `${file}:${row}:${column === '' ? '-' : column} ${severity}`,
  );
}

/** The folder that comes out when these files went in. */
export function roundTrip(
  contents: Readonly<Record<string, string | Uint8Array>>,
  guard = false,
): Readonly<Record<string, string>> {
  const { events, zone } = read(contents);
  return Object.fromEntries(writeSeasonFolder(fold(events, zone), { guard }));
}

/** The bytes of a text in Latin-1, in which each letter is one byte. */
export function latin1(text: string): Uint8Array {
  return Uint8Array.from(text.split('').map((letter) => letter.charCodeAt(0)));
}
