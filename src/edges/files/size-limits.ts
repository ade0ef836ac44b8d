/** What is read at once at most; a season of a whole coast has some ten megabytes (G). */
export const LIMITS = {
  file_bytes: 200e6,
  all_bytes: 400e6,
  /** The text of a workbook; some 150,000 rows of ten cells, read in some ten seconds. */
  workbook_bytes: 80e6,
  files: 500,
} as const;

/** Only these are opened; of other files the name is enough to say that they were ignored. */
export function isSeasonFile(name: string): boolean {
  return /\.(csv|tsv|json)$/i.test(name);
}

/** A table as text that was given by itself, not in an archive: there .txt is mostly no table. */
export function isTextTable(name: string): boolean {
  return /\.txt$/i.test(name);
}

/** An Excel workbook; those of before 2007 are told that they are not read. */
export function isWorkbook(name: string): boolean {
  return /\.(xlsx|xlsm|xls)$/i.test(name) && !/(^|[/\\])~\$/.test(name);
}

/** A size as a person reads it. */
export function megabytes(bytes: number): string {
  return `${Math.max(1, Math.round(bytes / 1e6))} MB`;
}
