import { guarded } from '../csv/guard.ts';
import { writeCsv } from '../csv/write-csv.ts';

/** Namespaces of the terms we use. */
export const DWC = 'http://rs.tdwg.org/dwc/terms/';
const ROW_TYPES = {
  event: `${DWC}Event`,
  occurrence: `${DWC}Occurrence`,
  measurement: 'http://rs.iobis.org/obis/terms/ExtendedMeasurementOrFact',
} as const;

/** One file of an archive. Its first column is the id of the event that a row belongs to. */
export interface DwcTable<Term extends string = string> {
  readonly file: string;
  readonly rowType: (typeof ROW_TYPES)[keyof typeof ROW_TYPES];
  /** Terms of Darwin Core, in the order of the columns after the first. */
  readonly terms: readonly Term[];
  readonly rows: readonly DwcRow<Term>[];
}

/** The values of one row by term; what is missing is a blank cell. */
export interface DwcRow<Term extends string = string> {
  /** The event that it is, or belongs to. */
  readonly event: string;
  readonly values: Readonly<Partial<Record<Term, string | number | null>>>;
}

/** A table of one of the kinds that an archive of ours holds. */
export function dwcTable<const Term extends string>(
  kind: keyof typeof ROW_TYPES,
  file: string,
  terms: readonly Term[],
  rows: readonly DwcRow<NoInfer<Term>>[],
): DwcTable<Term> {
  return { file, rowType: ROW_TYPES[kind], terms, rows };
}

/**
 * The text of a table: comma, quotation marks, one line a row (line breaks in a remark become spaces,
 * since not every reader of archives takes them), and a header.
 */
export function dwcText({ terms, rows }: DwcTable): string {
  const cells = rows.map(({ event, values }) => [event, ...terms.map((term) => values[term])]);
  const lines = cells.map((row) =>
    row.map((value) => guarded(String(value ?? '').replace(/\s*[\r\n]+\s*/g, ' '), true)),
  );
  return writeCsv([['eventID', ...terms], ...lines], '\n');
}
