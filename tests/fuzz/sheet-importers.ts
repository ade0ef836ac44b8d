import { unzipSync, zipSync } from 'fflate';
import { applyMapping } from '../../src/core/exchange/mapping/apply-mapping.ts';
import { filesOf } from '../../src/core/exchange/mapping/files-of.ts';
import {
  type FoundSheet,
  findSheets,
  pastedFile,
} from '../../src/core/exchange/mapping/find-sheets.ts';
import {
  type ColumnMapping,
  type Mapping,
  columnKeys,
} from '../../src/core/exchange/mapping/mapping.ts';
import { type Question, settle } from '../../src/core/exchange/mapping/questions.ts';
import { plainText } from '../../src/core/exchange/mapping/plain-words.ts';
import { readSeasonFolder } from '../../src/core/exchange/season-folder/read-season-folder.ts';
import { tablesInOrder } from '../../src/core/exchange/tables/all-tables.ts';
import type { Random } from '../../src/core/numerics/random.ts';
import { readGivenFiles } from '../../src/edges/files/dropped-files.ts';
import { importer } from '../builders/season-files.ts';
import { workbook } from '../builders/workbook.ts';
import { awkwardWords, damaged } from './damage.ts';
import { type Importer, type Outcome, promise } from './importer.ts';
import { seasonText } from './season-importers.ts';

const utf8 = new TextEncoder();
const messy = [
  `Playa Norte;;;;;;
Temporada 2026;;;;;;
Nido;Especie;Fecha de puesta;Sector;Distancia (m);Huevos;Reubicado;Color de estaca
N-1;Tortuga boba;03/04/2026;Norte;120,5;98;Sí;roja
N-2;Tortuga verde;05/04/2026;Norte;1.200,5;110;no;azul
N-3;Cc;s/d;Sur;88;;x;
`,
  `Nest,Date,Time,Observer,Sand,Sound,Hatchlings
W-1,7/20/2026,9:30 pm,Ada,slight dip,steady,
W-2,7/20/2026,10:05 pm,Bo,collapsed,waterfall,12
W-1,7/21/2026,1:30 am,Ada,weird,quiet,0
`,
  `Fecha\tArena (F)\tAire (F)\tLluvia (mm)
01/07/2026\t84.2\t88\t0
02/07/2026\t85.1\t90\t12,5
`,
];

/** Answers whatever is asked, sensibly or not. */
function answered(mapping: Mapping, { sheet }: FoundSheet, luck: Random): Mapping {
  const keys = columnKeys(sheet.header);
  const columns: Record<string, ColumnMapping> = { ...mapping.columns };
  let times: Pick<Mapping, 'smallHours' | 'clock'> = {};
  const change = (index: number, answer: Partial<ColumnMapping>): void => {
    const key = keys[index] ?? '';
    const was = columns[key];
    if (was !== undefined) columns[key] = { ...was, ...answer };
  };
  const answer = (question: Question): void => {
    if (luck.chance(0.2)) return;
    switch (question.ask) {
      case 'order': {
        change(question.index, { order: luck.choice(question.readings).order });
        return;
      }
      case 'unit': {
        change(question.index, { unit: luck.choice(question.units) });
        return;
      }
      case 'comma': {
        change(question.index, { comma: luck.choice(['decimal', 'thousands']) });
        return;
      }
      case 'words': {
        change(question.index, {
          words: Object.fromEntries(
            question.unknown
              .filter(() => luck.chance(0.6))
              .map(({ text }) => [plainText(text), luck.choice(['', ...question.words])]),
          ),
        });
        return;
      }
      case 'small hours':
        times = { ...times, smallHours: luck.choice(['calendar', 'night']) };
        return;
      case 'clock':
        times = { ...times, clock: luck.choice(['21:00', '06:00']) };
    }
  };
  for (const question of settle(sheet, mapping).questions) answer(question);
  return { ...mapping, columns, ...times };
}

/** Problems that speak of more rows than the one they are told at. */
const namesSeveral = /No row of this file was taken|none of its rows here was/;

/** From files in anybody's words to events, as the app goes, with answers by chance. */
function readMatched(files: ReadonlyMap<string, Uint8Array>, luck: Random): Outcome {
  const found = findSheets(files);
  const applied = found.sheets.flatMap((one) => {
    const mapping = luck.chance(0.2)
      ? { ...one.guess.mapping, table: luck.choice(tablesInOrder).table }
      : one.guess.mapping;
    const made = applyMapping(one.sheet, answered(mapping, one, luck));
    if (made === null) return [];
    promise(
      made.rows.length === one.sheet.rows.length,
      () => `${one.sheet.rows.length} rows became ${made.rows.length}`,
    );
    for (const { row, cells } of made.rows) {
      const isText = cells.every((cell: unknown) => typeof cell === 'string');
      promise(isText, () => `row ${row} holds what is no text`);
    }
    for (const [at, { row, cells }] of one.sheet.rows.entries()) {
      promise(made.rows[at]?.row === row, () => `row ${row} became row ${made.rows[at]?.row}`);
      const wide = cells.slice(0, one.sheet.header.length);
      const kept = made.columns.map(
        ({ name }, index) => [name, made.rows[at]?.cells[index]] as const,
      );
      for (const [index, cell] of wide.entries()) {
        const heading = one.sheet.header[index] ?? '';
        if (made.columns.filter(({ from }) => from.includes(heading)).length > 0) continue;
        promise(false, () => `column ${heading} (${cell}) is nowhere among ${kept.join()}`);
      }
    }
    return [made];
  });
  const { files: joined, tell } = filesOf(found.rest, applied);
  const read = readSeasonFolder(joined, importer);
  const problems = tell(read.problems);
  // A row of which every cell says that nothing is known is blank once it is read.
  const rows = applied
    .flatMap((sheet) => sheet.rows)
    .filter(({ cells }) => cells.some((cell) => cell.trim() !== '')).length;
  const counted = Object.values(read.counts).reduce((sum, count) => sum + count.rows, 0);
  promise(counted >= rows, () => `${rows} rows were matched, ${counted} read`);
  const taken = Object.values(read.counts).reduce((sum, count) => sum + count.taken, 0);
  const errors = problems.filter(({ severity }) => severity === 'error');
  const rowsNamed = new Set(errors.map(({ file, row }) => `${file} ${row}`)).size;
  const isAll = errors.some(({ message }) => namesSeveral.test(message));
  promise(
    isAll || errors.length > 900 || taken + rowsNamed >= counted,
    () => `${counted} rows, ${taken} taken, ${rowsNamed} named`,
  );
  if (taken === 0) {
    promise(problems.length > 0, () => 'nothing was taken and nothing told');
    return 'refused';
  }
  return errors.length > 0 ? 'in part' : 'taken';
}

const anyText = (luck: Random): string =>
  luck.chance(0.7) ? luck.choice(messy) : seasonText(`${luck.choice(tablesInOrder).table}.csv`);

const sheets: Importer = {
  name: 'spreadsheet: CSV in other words',
  isText: true,
  make: (luck) => damaged(utf8.encode(anyText(luck)), luck, true),
  read: (bytes, luck) => readMatched(new Map([['datos.csv', bytes]]), luck),
};

const pasted: Importer = {
  name: 'spreadsheet: pasted cells',
  isText: true,
  make: (luck) => damaged(utf8.encode(anyText(luck).replaceAll(/[;,]/g, '\t')), luck, true),
  read: (bytes, luck) => readMatched(pastedFile(bytes), luck),
};

/** A workbook of what a table holds, some cells as numbers. */
function asWorkbook(luck: Random): Uint8Array {
  const rows = anyText(luck)
    .split('\n')
    .map((line) =>
      line
        .split(/[;,\t]/)
        .slice(0, 20)
        .map((cell) =>
          luck.chance(0.03)
            ? luck.choice(awkwardWords)
            : /^\d+(\.\d+)?$/.test(cell)
              ? Number(cell)
              : cell,
        ),
    );
  return workbook({ [luck.choice(['Nidos', 'a/b', '__proto__', '..'])]: rows, empty: [] });
}

async function readFiles(name: string, bytes: Uint8Array, luck: Random): Promise<Outcome> {
  const file = new File([new Uint8Array(bytes)], name);
  const read = await readGivenFiles([{ path: name, file }]);
  if (read.ok) return readMatched(read.files, luck);
  promise(read.message.includes(name), () => `refused without a name: ${read.message}`);
  return 'refused';
}

/** Inside the package: one part is damaged, and packed again as if nothing had happened. */
function damagedInside(bytes: Uint8Array, luck: Random): Uint8Array {
  const parts = unzipSync(bytes);
  const name = luck.choice(Object.keys(parts));
  return zipSync({ ...parts, [name]: damaged(parts[name] ?? new Uint8Array(), luck, true) });
}

/** A package that unpacks to far more than it weighs. */
function bomb(luck: Random, name: string): Uint8Array {
  const size = luck.choice([2e6, 20e6, 60e6]);
  return zipSync(
    { [name]: new Uint8Array(size).fill(luck.choice([32, 48, 10, 60])) },
    { level: 9 },
  );
}

const workbooks: Importer = {
  name: 'spreadsheet: workbook (.xlsx)',
  isText: false,
  make: (luck) => {
    if (luck.chance(0.01)) return bomb(luck, 'xl/worksheets/sheet1.xml');
    const good = asWorkbook(luck);
    if (luck.chance(0.5)) return damagedInside(good, luck);
    return luck.chance(0.6) ? damaged(good, luck, false) : good;
  },
  read: (bytes, luck) => readFiles('libro.xlsx', bytes, luck),
};

const archives: Importer = {
  name: 'archive of a season (.zip)',
  isText: false,
  make: (luck) => {
    if (luck.chance(0.01))
      return bomb(luck, luck.choice(['nests.csv', 'visits.csv', 'programme.json']));
    const names = ['programme.json', ...tablesInOrder.map(({ table }) => `${table}.csv`)];
    const files = names.map((name) => [`season/${name}`, utf8.encode(seasonText(name))] as const);
    const good = zipSync(Object.fromEntries(files));
    return luck.chance(0.4) ? damagedInside(good, luck) : damaged(good, luck, false);
  },
  read: (bytes, luck) => readFiles('season.zip', bytes, luck),
};

export const sheetImporters: readonly Importer[] = [sheets, pasted, workbooks, archives];
