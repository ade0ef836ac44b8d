import * as z from 'zod/mini';
import { asDevice } from '../database/as-device.ts';
import type { Database, Sql } from '../database/database.ts';
import { firstRow, rows } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { tellRevoked } from '../changes/tell.ts';
import { Role } from './role.ts';

const DeviceRow = z.object({
  id: z.string(),
  person: z.string(),
  label: z.nullable(z.string()),
  role: Role,
  teams: z.array(z.string()),
  joined: z.date(),
  last_seen: z.nullable(z.date()),
  last_sent: z.nullable(z.date()),
  events_sent: z.number(),
  read_up_to: z.number(),
  revoked: z.nullable(z.date()),
});
/** A device of a programme, as its lead sees it. */
export type DeviceRow = z.infer<typeof DeviceRow>;

/** The devices of a programme, the revoked ones last. */
export function devicesOf(sql: Sql, programme: string): Promise<DeviceRow[]> {
  return rows(
    sql,
    DeviceRow,
    `select id, person, label, role, joined, last_seen, last_sent, revoked,
       events_sent::float8 as events_sent, read_up_to::float8 as read_up_to,
       (select coalesce(json_agg(team.name order by device_team.position), '[]')
         from firstdark.device_team join firstdark.team on team.id = device_team.team
         where device_team.device = device.id) as teams
     from firstdark.device where programme = $1::uuid
     order by revoked is not null, lower(person), joined`,
    [programme],
  );
}

/** What a device had when it was revoked. */
export interface WhatItHad {
  readonly id: string;
  readonly person: string;
  readonly label: string | null;
  readonly role: Role;
  readonly teams: readonly string[];
  readonly last_seen: Date | null;
  readonly events_sent: number;
  /** How many events it could read. */
  readonly events_readable: number;
  /** How many of them it said it has: the most that lies on it. */
  readonly events_read: number;
}

/** Shuts a device out, from the next request on; says what it had. Doing so again changes nothing. */
export async function revokeDevice(
  database: Database,
  programme: string,
  id: string,
  reason: string | null,
): Promise<Outcome<WhatItHad>> {
  const found = (await devicesOf(database, programme)).find((device) => device.id === id);
  if (found === undefined) {
    return turnedAway(
      404,
      'device unknown',
      `There is no device ${id} in this programme. The list of devices shows their ids.`,
    );
  }
  const Readable = z.object({ n: z.number() });
  const readable =
    found.revoked === null
      ? await asDevice(database, id, (sql) =>
          firstRow(
            sql,
            Readable,
            'select coalesce(sum(last), 0)::float8 as n from firstdark.team_sequence',
          ),
        )
      : null;
  await database.transaction(async (sql) => {
    await sql.query(
      `update firstdark.device set revoked = now(), revoked_reason = $2
       where id = $1::uuid and revoked is null`,
      [id, reason],
    );
    await tellRevoked(sql, id);
  });
  const { person, label, role, teams, last_seen, events_sent, read_up_to } = found;
  return done({
    id,
    person,
    label,
    role,
    teams,
    last_seen,
    events_sent,
    events_readable: readable?.n ?? read_up_to,
    events_read: read_up_to,
  });
}
