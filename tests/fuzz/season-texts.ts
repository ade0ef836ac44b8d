import { writeCsv } from '../../src/core/exchange/csv/write-csv.ts';
import { inventSeason } from '../../src/core/invented-season/invented-season.ts';

/** The files of a small invented season by name, with remarks that need quotation marks. */
export function seasonTexts(): ReadonlyMap<string, string> {
  const { programme, tables } = inventSeason({ nests: 6, seed: 11 });
  const files = new Map([['programme.json', JSON.stringify(programme, null, 1)]]);
  for (const { file, columns, rows } of tables) {
    const kept = rows.slice(0, 12).map((row, at) => [...row, remarks[at % remarks.length] ?? '']);
    files.set(file, writeCsv([[...columns, 'remark of ours'], ...kept], '\n'));
  }
  return files;
}

const remarks = ['', 'sea oats, "tall" ones', 'two\nlines', 'niño', ' spaced ', "'=1+1"];
