/** What a statement may be handed for `$1`, `$2` and so on. Lists go as JSON text. */
export type Parameter = string | number | boolean | null;

/** Runs SQL. Rows are `unknown` until a schema has read them: `rows.ts`. */
export interface Sql {
  query(text: string, parameters?: readonly Parameter[]): Promise<readonly unknown[]>;
  /** Several statements without parameters. */
  script(text: string): Promise<void>;
}

/**
 * The database behind a hub: PostgreSQL in this process with a folder of its own, or a server.
 * Both pass `tests/hub/hub-suite.ts`.
 */
export interface Database extends Sql {
  /**
   * All or nothing. When it gives a value, what was written is on stable storage. `use` may be
   * called again after a connection broke, also when its first commit has come through: what it
   * writes must do no harm when it is written twice.
   */
  transaction<T>(use: (sql: Sql) => Promise<T>): Promise<T>;
  /** Hears what is told with pg_notify; `again` is called whenever something may have been missed. */
  listen(channel: string, heard: (payload: string) => void, again: () => void): Promise<void>;
  close(): Promise<void>;
}
