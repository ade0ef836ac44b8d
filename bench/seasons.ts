import type { NestId } from '../src/core/domain/nest.ts';
import { parseNight } from '../src/core/domain/night.ts';
import { writeCsv } from '../src/core/exchange/csv/write-csv.ts';
import { readSeasonFolder } from '../src/core/exchange/season-folder/read-season-folder.ts';
import type { Fates } from '../src/core/forecast/backtest.ts';
import {
  type InventedSeasonOptions,
  inventSeason,
} from '../src/core/invented-season/invented-season.ts';
import { fold } from '../src/core/log/fold.ts';
import type { SeasonRecord } from '../src/core/log/season-record.ts';

export interface BenchSeason {
  readonly record: SeasonRecord;
  readonly fates: Fates;
}

/** An invented season as the program would read it from its tables, and the truth behind it. */
export function benchSeason(options: InventedSeasonOptions): BenchSeason {
  const season = inventSeason(options);
  const encoder = new TextEncoder();
  const files = new Map<string, Uint8Array>([
    ['programme.json', encoder.encode(JSON.stringify(season.programme))],
  ]);
  for (const { file, columns, rows } of season.tables) {
    files.set(file, encoder.encode(writeCsv([columns, ...rows], '\n')));
  }
  const read = readSeasonFolder(files, {
    zone: null,
    author: 'bench',
    device: 'bench',
    now_ms: Date.UTC(2100, 0, 1),
  });
  const errors = read.problems.filter((problem) => problem.severity === 'error');
  if (errors[0] !== undefined)
    throw new Error(`The invented season has errors: ${errors[0].message}`);
  const fates = new Map<NestId, ReturnType<typeof parseNight>>();
  for (const { nest, night } of season.truth) {
    fates.set(nest as NestId, night === null ? null : parseNight(night));
  }
  return { record: fold(read.events), fates };
}
