/** One variable; whole when `isWhole`. Its index is its place in the list. */
export interface Column {
  readonly name: string;
  readonly gain: number;
  readonly lower: number;
  /** Infinity = no bound. */
  readonly upper: number;
  readonly isWhole: boolean;
}

/** One constraint: the sum of coefficient times column, compared with a number. */
export interface Row {
  readonly name: string;
  readonly terms: readonly (readonly [column: number, coefficient: number])[];
  readonly sense: '<=' | '>=' | '=';
  readonly right: number;
}

/** A mixed-integer program; its gain is to be maximised. */
export interface LinearProgram {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

/** Gathers the columns and rows of a program. */
export class ProgramBuilder {
  readonly #columns: Column[] = [];
  readonly #rows: Row[] = [];

  /** A variable that is 0 or 1, named by a letter and its number; gives its index. */
  choice(letter: string, gain = 0): number {
    return this.#add(letter, { gain, lower: 0, upper: 1, isWhole: true });
  }

  /**
   * A whole number from 0 on; gives its index. Where the choices are whole these follow as whole by
   * themselves; it is said all the same, since presolve of HiGHS 1.15.1 can look for it without end.
   */
  count(letter: string): number {
    return this.#add(letter, { gain: 0, lower: 0, upper: Infinity, isWhole: true });
  }

  /** Lets a column gain so much more. */
  addGain(column: number, gain: number): void {
    const known = this.#columns[column];
    if (known !== undefined) this.#columns[column] = { ...known, gain: known.gain + gain };
  }

  /** Holds a column at one value. */
  fix(column: number, value: number): void {
    const known = this.#columns[column];
    if (known !== undefined) this.#columns[column] = { ...known, lower: value, upper: value };
  }

  /** A constraint, named by a word and its number. One that holds by itself for want of terms is left out. */
  row(word: string, terms: Row['terms'], sense: Row['sense'], right: number): void {
    if (terms.length === 0 && (sense === '<=' ? right >= 0 : right <= 0)) return;
    this.#rows.push({ name: `${word}${this.#rows.length}`, terms, sense, right });
  }

  build(): LinearProgram {
    return { columns: this.#columns, rows: this.#rows };
  }

  #add(letter: string, column: Omit<Column, 'name'>): number {
    const index = this.#columns.length;
    this.#columns.push({ ...column, name: `${letter}${index}` });
    return index;
  }
}
