import * as z from 'zod/mini';
import type { Database, Sql } from '../database/database.ts';
import { firstRow, rows } from '../database/rows.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { Role } from './role.ts';
import { hashOf, newSecret } from './secret.ts';
import { namedTeams } from './teams.ts';

/** How long an invitation holds unless told otherwise, and at most, hours. */
export const usualLife_h = 48;
export const longestLife_h = 24 * 30;

export interface NewInvitation {
  readonly role: Role;
  readonly teams: readonly string[];
  /** As whom the one who joins is known; null: they say so themselves. */
  readonly person: string | null;
  readonly expires_h: number;
  /** The device it is made on; null: by whoever runs the hub. */
  readonly madeBy: string | null;
  readonly missingTeams: 'refuse' | 'add';
}

export interface Invited {
  readonly id: string;
  /** The secret; the hub keeps only its hash. */
  readonly invitation: string;
  readonly expires: Date;
}

/** Makes an invitation into a programme, for one device. */
export function invite(
  database: Database,
  programme: string,
  wanted: NewInvitation,
): Promise<Outcome<Invited>> {
  const invitation = newSecret('invitation');
  const Made = z.object({ id: z.string(), expires: z.date() });
  return database.transaction(async (sql) => {
    const teams = await namedTeams(sql, programme, wanted.teams, wanted.missingTeams);
    if (!teams.ok) return teams;
    const made = await firstRow(
      sql,
      Made,
      `insert into firstdark.invitation (programme, secret_hash, role, person, made_by, expires)
       values ($1::uuid, $2, $3, $4, $5::uuid, now() + make_interval(secs => $6::float8))
       returning id, expires`,
      [
        programme,
        hashOf(invitation),
        wanted.role,
        wanted.person,
        wanted.madeBy,
        wanted.expires_h * 3600,
      ],
    );
    if (made === null) throw new Error('the invitation was not written');
    for (const [position, { id }] of teams.value.entries()) {
      await sql.query(
        'insert into firstdark.invitation_team (invitation, team, position) values ($1::uuid, $2::uuid, $3)',
        [made.id, id, position],
      );
    }
    return done({ ...made, invitation });
  });
}

const OpenInvitation = z.object({
  id: z.string(),
  role: Role,
  teams: z.array(z.string()),
  person: z.nullable(z.string()),
  made: z.date(),
  expires: z.date(),
});
export type OpenInvitation = z.infer<typeof OpenInvitation>;

/** The invitations of a programme that can still be used, the newest first. Never their secrets. */
export function openInvitations(sql: Sql, programme: string): Promise<OpenInvitation[]> {
  return rows(
    sql,
    OpenInvitation,
    `select id, role, person, made, expires,
       (select coalesce(json_agg(team.name order by invitation_team.position), '[]')
         from firstdark.invitation_team join firstdark.team on team.id = invitation_team.team
         where invitation_team.invitation = invitation.id) as teams
     from firstdark.invitation
     where programme = $1::uuid and used is null and withdrawn is null and expires > now()
     order by made desc`,
    [programme],
  );
}

/** Takes back an invitation that nobody has used. */
export async function withdrawInvitation(
  sql: Sql,
  programme: string,
  id: string,
): Promise<Outcome<null>> {
  const Withdrawn = z.object({ id: z.string() });
  const withdrawn = await firstRow(
    sql,
    Withdrawn,
    `update firstdark.invitation set withdrawn = coalesce(withdrawn, now())
     where id = $2::uuid and programme = $1::uuid and used is null returning id`,
    [programme, id],
  );
  if (withdrawn !== null) return done(null);
  return turnedAway(
    404,
    'invitation unknown',
    'There is no such invitation that is still unused. If somebody has joined by it, revoke their device.',
  );
}
