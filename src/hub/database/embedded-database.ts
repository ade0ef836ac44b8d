import { mkdir } from 'node:fs/promises';
import { PGlite, type Transaction } from '@electric-sql/pglite';
import type { Database, Parameter, Sql } from './database.ts';
import { DurableFolder } from './durable-folder.ts';

/** What PGlite starts with, but for `-F`, which means `fsync=off`; `fsync` is the way that reaches `DurableFolder`. */
const startParameters = [
  ...PGlite.defaultStartParams.filter((parameter) => parameter !== '-F'),
  ...['-c', 'fsync=on', '-c', 'wal_sync_method=fsync', '-c', 'synchronous_commit=on'],
];

/**
 * PostgreSQL inside this process (PGlite), in a folder that nobody else has open. One statement or
 * transaction at a time.
 */
export class EmbeddedDatabase implements Database {
  readonly #engine: PGlite;

  private constructor(engine: PGlite) {
    this.#engine = engine;
  }

  /** Opens the folder; makes the database in it when there is none yet, which takes some seconds. */
  static async open(folder: string): Promise<EmbeddedDatabase> {
    await mkdir(folder, { recursive: true, mode: 0o700 });
    const fs = new DurableFolder(folder);
    return new EmbeddedDatabase(await PGlite.create({ fs, startParams: startParameters }));
  }

  query(text: string, parameters: readonly Parameter[] = []): Promise<readonly unknown[]> {
    return sqlOf(this.#engine).query(text, parameters);
  }

  script(text: string): Promise<void> {
    return sqlOf(this.#engine).script(text);
  }

  transaction<T>(use: (sql: Sql) => Promise<T>): Promise<T> {
    return this.#engine.transaction((transaction) => use(sqlOf(transaction)));
  }

  async listen(channel: string, heard: (payload: string) => void): Promise<void> {
    await this.#engine.listen(channel, heard);
  }

  close(): Promise<void> {
    return this.#engine.close();
  }
}

function sqlOf(engine: Pick<Transaction, 'query' | 'exec'>): Sql {
  return {
    query: async (text, parameters = []) =>
      (await engine.query<unknown>(text, [...parameters])).rows,
    script: async (text) => {
      await engine.exec(text);
    },
  };
}
