/** What was done to the cells of one column, to be told. */
export interface Change {
  readonly column: string;
  readonly message: string;
}

/** Gathers what is done to cells: of each kind the first example, and how many cells it befell. */
export class Changes {
  readonly #kinds = new Map<string, { column: string; message: string; times: number }>();

  /** `kind` tells apart what is counted by itself. */
  add(column: string, kind: string, message: string): void {
    const key = `${column} ${kind}`;
    const known = this.#kinds.get(key);
    if (known === undefined) this.#kinds.set(key, { column, message, times: 1 });
    else known.times++;
  }

  list(): readonly Change[] {
    return [...this.#kinds.values()].map(({ column, message, times }) => ({
      column,
      message: `${message}${times === 1 ? '' : `, and likewise ${times - 1} more`}.`,
    }));
  }
}
