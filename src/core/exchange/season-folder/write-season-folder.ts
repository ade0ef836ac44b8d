import type { Programme } from '../../domain/programme.ts';
import type { SeasonRecord } from '../../log/season-record.ts';
import { tablesInOrder } from '../tables/all-tables.ts';
import { fileOf } from '../tables/table-spec.ts';
import { PROGRAMME_FILE, readProgrammeText } from './programme-file.ts';
import { ROSTER_FILE, writeRosterFile } from './roster-file.ts';
import { standingRows } from './standing-row.ts';
import { type WriteOptions, writeTable } from './write-table.ts';

/**
 * The files of a season folder by name: `programme.json` if a programme is described, `nests.csv`,
 * and every other table that has rows or was there before; `roster.json` if anything is settled of who
 * sits where that has no table. What was read from a folder and not
 * changed since is written cell by cell as it was.
 */
export function writeSeasonFolder(
  record: SeasonRecord,
  options: WriteOptions,
): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  const programme = writeProgramme(record);
  if (programme !== null) files.set(PROGRAMME_FILE, programme);
  for (const spec of tablesInOrder) {
    const rows = standingRows(record, spec.table);
    const layout = record.layouts.get(spec.table);
    if (rows.length === 0 && layout === undefined && spec.table !== 'nests') continue;
    files.set(fileOf(spec.table), writeTable(spec, rows, layout, record.zone, options));
  }
  const roster = writeRosterFile(record);
  if (roster !== null) files.set(ROSTER_FILE, roster);
  return files;
}

function writeProgramme({ programme, events }: SeasonRecord): string | null {
  for (const event of events.values()) {
    const text = event.source?.text?.[PROGRAMME_FILE];
    if (event.kind !== 'programme-described' || text === undefined) continue;
    const read = readProgrammeText(text);
    if (read.ok && sameProgramme(read.programme, programme)) return text;
  }
  if (Object.keys(programme).length === 0) return null;
  return `${JSON.stringify(programme, null, 2)}\n`;
}

/** Whether two programmes say the same, whatever the order of their keys. */
export function sameProgramme(a: Programme, b: Programme): boolean {
  return sortedText(a) === sortedText(b);
}

function sortedText(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : 1)))
      : part,
  );
}
