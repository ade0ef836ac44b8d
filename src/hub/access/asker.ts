import * as z from 'zod/mini';
import type { Sql } from '../database/database.ts';
import { firstRow } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { Role } from './role.ts';
import { hashOf } from './secret.ts';

const Team = z.object({ id: z.string(), name: z.string() });
export type Team = z.infer<typeof Team>;

const Asker = z.object({
  id: z.string(),
  programme: z.string(),
  programme_name: z.string(),
  person: z.string(),
  /** What the device stamps on its events. */
  name: z.string(),
  role: Role,
  revoked: z.nullable(z.date()),
  /** Its named teams, the first one first. */
  teams: z.array(Team),
  everyone: z.string(),
});
/** The device that asks, as the database knows it by its key. */
export type Asker = z.infer<typeof Asker>;

const BEARER = /^Bearer (fd1_[A-Za-z0-9_-]{43})$/;

const unknownKey = turnedAway(
  401,
  'key unknown',
  'This hub does not know the key of this device. Ask the lead for a new invitation; what is on the device stays there.',
);

/** The device whose key stands in an Authorization header. */
export async function askerOf(
  sql: Sql,
  authorization: string | undefined,
): Promise<Outcome<Asker>> {
  const key = BEARER.exec(authorization ?? '')?.[1];
  if (key === undefined) return unknownKey;
  const asker = await deviceWith(sql, 'device.key_hash = $1', hashOf(key));
  if (asker === null) return unknownKey;
  if (asker.revoked === null) return done(asker);
  const day = asker.revoked.toISOString().slice(0, 10);
  return turnedAway(
    401,
    'key revoked',
    `The key of this device was revoked on ${day}. Ask the lead for a new invitation; what is on the device stays there.`,
  );
}

/** A device by its id in the database. */
export function deviceById(sql: Sql, id: string): Promise<Asker | null> {
  return deviceWith(sql, 'device.id = $1::uuid', id);
}

function deviceWith(
  sql: Sql,
  condition: 'device.key_hash = $1' | 'device.id = $1::uuid',
  value: string,
): Promise<Asker | null> {
  return firstRow(
    sql,
    Asker,
    `select device.id, device.programme, programme.name as programme_name, device.person,
       device.name, device.role, device.revoked, everyone.id as everyone,
       (select coalesce(json_agg(json_build_object('id', team.id, 'name', team.name)
           order by device_team.position), '[]')
         from firstdark.device_team join firstdark.team on team.id = device_team.team
         where device_team.device = device.id) as teams
     from firstdark.device
       join firstdark.programme on programme.id = device.programme
       join firstdark.team everyone on everyone.programme = device.programme and everyone.is_everyone
     where ${condition}`,
    [value],
  );
}
