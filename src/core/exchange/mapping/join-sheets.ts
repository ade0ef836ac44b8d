import { writeCsv } from '../csv/write-csv.ts';
import type { Problem } from '../problem.ts';
import { plainHeading } from '../tables/header.ts';
import { fileOf } from '../tables/table-spec.ts';
import type { AppliedColumn, AppliedSheet } from './apply-mapping.ts';

/** The standard TextEncoder; it is in browsers and in Node alike. */
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

/** Sheets as files of a season folder, and the way back from their problems to the sheets. */
export interface JoinedSheets {
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** The same problems by the sheet's own name, row numbers and headings. */
  readonly tell: (problems: readonly Problem[]) => readonly Problem[];
}

/** Where a line of a joined file comes from. */
interface Origin {
  readonly applied: AppliedSheet;
  readonly row: number;
}

/** Makes one file of each table, out of all sheets that are that table, one below the other. */
export function joinSheets(sheets: readonly AppliedSheet[]): JoinedSheets {
  const files = new Map<string, Uint8Array>();
  const origins = new Map<string, readonly Origin[]>();
  const utf8 = new TextEncoder();
  for (const table of new Set(sheets.map((applied) => applied.table))) {
    const same = sheets.filter((applied) => applied.table === table);
    const { lines, from } = joinTable(same);
    files.set(fileOf(table), utf8.encode(writeCsv(lines, '\n')));
    origins.set(fileOf(table), from);
  }
  const own = sheets.flatMap(({ sheet }) => sheet.problems);
  return {
    files,
    tell: (problems) => [...own, ...problems.map((problem) => retold(problem, origins))],
  };
}

function joinTable(sheets: readonly AppliedSheet[]): {
  readonly lines: readonly (readonly string[])[];
  readonly from: readonly Origin[];
} {
  const placed = sheets.map(({ columns }) => keysOf(columns));
  const keys = [...new Set(placed.flat())];
  const nameOf = new Map(
    sheets.flatMap(({ columns }, at) =>
      columns.map(({ name }, index) => [placed[at]?.[index] ?? name, name] as const),
    ),
  );
  const lines: (readonly string[])[] = [keys.map((key) => nameOf.get(key) ?? key)];
  const from: Origin[] = [];
  sheets.forEach((applied, at) => {
    const own = placed[at] ?? [];
    const places = keys.map((key) => own.indexOf(key));
    const [first] = sheets;
    if (applied === first) from.push({ applied, row: applied.sheet.header_row });
    for (const { row, cells } of applied.rows) {
      lines.push(places.map((place) => cells[place] ?? ''));
      from.push({ applied, row });
    }
  });
  return { lines, from };
}

/** A key for each column, the same for the same name in another sheet; repeated names are told apart. */
function keysOf(columns: readonly AppliedColumn[]): readonly string[] {
  const times = new Map<string, number>();
  return columns.map(({ name }) => {
    const plain = plainHeading(name);
    const time = (times.get(plain) ?? 0) + 1;
    times.set(plain, time);
    return `${plain} ${time}`;
  });
}

/** Rows as our messages name them: `row 4`, `rows 4 and 7`, `nests.csv row 4`. */
const ROW = /* @wc-include */ 'row';
const ROWS = /* @wc-include */ 'rows';
const AND = /* @wc-include */ 'and';
const NAMED = [ROW, ROWS].map(
  (word) => `[${word.charAt(0)}${word.charAt(0).toUpperCase()}]${word.slice(1)}`,
);
const ROWS_NAMED = new RegExp(
  /* @wc-ignore */ `\\b([a-z]+\\.csv )?((?:${NAMED.join('|')}) )(\\d+)(?: ${AND} (\\d+))?`,
  'g',
);

function retold(problem: Problem, origins: ReadonlyMap<string, readonly Origin[]>): Problem {
  const from = origins.get(problem.file);
  const origin = from?.[Math.max(0, problem.row - 1)];
  if (from === undefined || origin === undefined) return problem;
  const { applied, row } = origin;
  const message = problem.message
    .replace(/\b[a-z]+(?:_[a-z]+)+\b/g, (name) => {
      const heading = headingOf(name, applied);
      return heading === null ? name : `“${heading}”`;
    })
    .replace(ROWS_NAMED, (text: string, ...found: unknown[]) => {
      const [file, word, one, two] = found.slice(0, 4).map((part) => part as string | undefined);
      const lines = file === undefined ? from : origins.get(file.trim());
      const first = lines?.[Number(one) - 1];
      if (lines === undefined || first === undefined) return text;
      const named = file === undefined ? '' : `${first.applied.sheet.name} `;
      const here = file === undefined ? applied : first.applied;
      const second = two === undefined ? '' : ` ${AND} ${rowText(Number(two), lines, here)}`;
      return `${named}${word ?? ''}${rowText(Number(one), lines, here)}${second}`;
    });
  const column = headingOf(problem.column, applied) ?? problem.column;
  return {
    ...problem,
    file: applied.sheet.name,
    row: problem.row === 0 ? 0 : row,
    column,
    message,
  };
}

function headingOf(name: string, { columns }: AppliedSheet): string | null {
  const column = columns.find((candidate) => candidate.name === name);
  return column === undefined || column.from.length === 0 ? null : column.from.join(' + ');
}

/** A row of the joined file by its number in its own sheet, which is named when it is another. */
function rowText(line: number, from: readonly Origin[], here: AppliedSheet): string {
  const origin = from[line - 1];
  if (origin === undefined) return String(line);
  return origin.applied === here
    ? String(origin.row)
    : `${origin.row} of ${origin.applied.sheet.name}`;
}
