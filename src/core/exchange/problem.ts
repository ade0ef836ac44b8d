/** Something wrong, or odd, in a file, told so that it can be found and mended in a spreadsheet. */
export interface Problem {
  readonly file: string;
  /** The row as a spreadsheet numbers it: the header is row 1. 0 = the file as a whole. */
  readonly row: number;
  /** Name of the column; empty when the whole row or file is meant. */
  readonly column: string;
  /** What was found, what was expected, what to do. */
  readonly message: string;
  /** An `error` keeps the row out; a `warning` does not. */
  readonly severity: 'error' | 'warning';
}

/** One line for a terminal: `file:row:column: message`, `-` where no single column is meant. */
export function problemLine(problem: Problem): string {
  const { file, row, column, message, severity } = problem;
  const mark = severity === 'warning' ? 'warning: ' : '';
  return `${file}:${row}:${column === '' ? '-' : column}: ${mark}${message}`.replace(/\s+/g, ' ');
}

/** Whether any of them keeps something out. */
export function hasErrors(problems: readonly Problem[]): boolean {
  return problems.some((problem) => problem.severity === 'error');
}

/** How many problems of one file are listed before the rest are only counted. */
const LISTED_A_FILE = 1000;

/** Gathers the problems of one file in bounded memory. */
export class ProblemsOfFile {
  readonly #file: string;
  readonly #listed: Problem[] = [];
  readonly #said = new Set<string>();
  #unlisted = { error: 0, warning: 0 };

  constructor(file: string) {
    this.#file = file;
  }

  add(severity: Problem['severity'], row: number, column: string, message: string): void {
    if (this.#listed.length < LISTED_A_FILE) {
      this.#listed.push({ file: this.#file, row, column, message, severity });
    } else this.#unlisted[severity]++;
  }

  /** Adds it unless one with the same `topic` was added before. */
  addOnce(
    topic: string,
    severity: Problem['severity'],
    row: number,
    column: string,
    message: string,
  ): void {
    if (this.#said.has(topic)) return;
    this.#said.add(topic);
    this.add(severity, row, column, message);
  }

  /** All of them in the order of rows; the last one counts those that were not listed. */
  list(): readonly Problem[] {
    const listed = [...this.#listed].sort((a, b) => a.row - b.row);
    const { error, warning } = this.#unlisted;
    if (error + warning === 0) return listed;
    const message = `${error} more errors and ${warning} more warnings in this file are not listed. Mend those above, then check again.`;
    const severity = error > 0 ? 'error' : 'warning';
    return [...listed, { file: this.#file, row: 0, column: '', message, severity }];
  }
}

/** A cell's text as a message quotes it: in quotation marks, cut when long. */
export function quoted(text: string): string {
  return `"${text.length > 60 ? `${text.slice(0, 57)}...` : text}"`;
}
