import * as z from 'zod/mini';
import type { Sql } from '../database/database.ts';
import { firstRow } from '../database/rows.ts';

/** Where the hub that last started on a database is reached, with the closing slash; null before the first. */
export async function hubAddress(sql: Sql): Promise<string | null> {
  const Setting = z.object({ value: z.string() });
  const text = "select value from firstdark.setting where name = 'address'";
  return (await firstRow(sql, Setting, text))?.value ?? null;
}

export async function keepHubAddress(sql: Sql, address: string): Promise<void> {
  await sql.query(
    `insert into firstdark.setting (name, value) values ('address', $1)
     on conflict (name) do update set value = excluded.value`,
    [address],
  );
}
