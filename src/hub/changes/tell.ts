import * as z from 'zod/mini';
import type { Sql } from '../database/database.ts';

/** The channel on which the hub processes of one database tell each other what changed. */
export const CHANNEL = 'firstdark';

const Told = z.union([
  z.object({ programme: z.string(), team: z.string() }),
  z.object({ revoked: z.string() }),
]);
/** New events of a team, or a device that was shut out. */
export type Told = z.infer<typeof Told>;

/** What was told, or null when it is nothing of ours. */
export function readTold(payload: string): Told | null {
  try {
    const read = Told.safeParse(JSON.parse(payload));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}

/** Tells that a team has new events. Not within their transaction: commits that tell wait for each other. */
export function tellNewEvents(sql: Sql, programme: string, team: string): Promise<unknown> {
  return tell(sql, { programme, team });
}

export function tellRevoked(sql: Sql, device: string): Promise<unknown> {
  return tell(sql, { revoked: device });
}

function tell(sql: Sql, told: Told): Promise<unknown> {
  return sql.query('select pg_notify($1, $2)', [CHANNEL, JSON.stringify(told)]);
}
