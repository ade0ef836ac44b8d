import { writeCsv } from '../../src/core/exchange/csv/write-csv.ts';
import { readSeasonFolder } from '../../src/core/exchange/season-folder/read-season-folder.ts';
import { EveningMemory } from '../../src/core/forecast/evening-memory.ts';
import { forecastSeason } from '../../src/core/forecast/tonight.ts';
import type { SeasonForecast } from '../../src/core/forecast/forecast.ts';
import { inventSeason } from '../../src/core/invented-season/invented-season.ts';
import { fold } from '../../src/core/log/fold.ts';
import { momentAt } from '../../src/app/state/evening.ts';

/** A season folder as a person would pick its files; the texts of an invented season. */
export interface PickedFile {
  readonly name: string;
  readonly mimeType: string;
  readonly buffer: Buffer;
}

/** The files of an invented season; visits made after `until` (ISO, with offset) are not written yet. */
export function inventedFiles(nests: number, seed: number, until: string): readonly PickedFile[] {
  const { programme, tables } = inventSeason({ nests, seed });
  const files = tables.map(({ file, columns, rows }) => {
    const time = columns.indexOf('time');
    const kept =
      time === -1 ? rows : rows.filter((row) => Date.parse(row[time] ?? '') <= Date.parse(until));
    const text = writeCsv([columns, ...kept], '\n');
    return { name: file, mimeType: 'text/csv', buffer: Buffer.from(text) };
  });
  const description = Buffer.from(JSON.stringify(programme, null, 2));
  return [...files, { name: 'programme.json', mimeType: 'application/json', buffer: description }];
}

/** What the core says of those files at a moment, with cues learned from them, without any browser. */
export function forecastOf(files: readonly PickedFile[], at: string): SeasonForecast {
  const bytes = new Map(files.map(({ name, buffer }) => [name, new Uint8Array(buffer)]));
  const at_ms = Date.parse(at);
  const read = readSeasonFolder(bytes, { zone: 'UTC', author: '', device: 'test', now_ms: at_ms });
  const record = fold(read.events);
  const moment = momentAt(at_ms, record.zone);
  return forecastSeason(record, moment, new EveningMemory().on(record, moment));
}
