import * as z from 'zod/mini';
import type { Parameter, Sql } from './database.ts';

/** The rows of a statement, read by a schema. Throws when the database gives something else. */
export async function rows<Row extends z.ZodMiniType>(
  sql: Pick<Sql, 'query'>,
  row: Row,
  text: string,
  parameters: readonly Parameter[] = [],
): Promise<z.infer<Row>[]> {
  return z.array(row).parse(await sql.query(text, parameters));
}

/** The first row of a statement, or null when it gives none. */
export async function firstRow<Row extends z.ZodMiniType>(
  sql: Pick<Sql, 'query'>,
  row: Row,
  text: string,
  parameters: readonly Parameter[] = [],
): Promise<z.infer<Row> | null> {
  return (await rows(sql, row, text, parameters))[0] ?? null;
}
