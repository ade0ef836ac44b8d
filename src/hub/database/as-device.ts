import type { Database, Sql } from './database.ts';

/**
 * A transaction in which the database itself holds a device to what it may see and add: as the role
 * `firstdark_device`, with the policies of migration 002.
 */
export function asDevice<T>(
  database: Database,
  device: string,
  use: (sql: Sql) => Promise<T>,
): Promise<T> {
  return database.transaction(async (sql) => {
    await sql.query(
      "select set_config('role', 'firstdark_device', true), set_config('firstdark.device', $1, true)",
      [device],
    );
    return use(sql);
  });
}
