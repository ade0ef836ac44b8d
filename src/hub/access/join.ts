import * as z from 'zod/mini';
import type { Database, Sql } from '../database/database.ts';
import { firstRow, rows } from '../database/rows.ts';
import { type Outcome, type TurnedAway, done, turnedAway } from '../turned-away.ts';
import { Role } from './role.ts';
import { hashOf, newSecret } from './secret.ts';

export interface Joining {
  readonly invitation: string;
  readonly person: string;
  /** What the device stamps on its events. */
  readonly device: string;
  readonly label: string | null;
}

export interface Joined {
  readonly device: string;
  /** The secret; the hub keeps only its hash. */
  readonly key: string;
}

const Invitation = z.object({
  id: z.string(),
  programme: z.string(),
  role: Role,
  person: z.nullable(z.string()),
  expired: z.boolean(),
  used: z.nullable(z.date()),
  used_by: z.nullable(z.string()),
  withdrawn: z.nullable(z.date()),
});
type Invitation = z.infer<typeof Invitation>;

/** Uses an invitation up: the device is known from now on, by a key of its own. */
export function join(database: Database, joining: Joining): Promise<Outcome<Joined>> {
  const key = newSecret('key');
  return database.transaction(async (sql) => {
    const invitation = await firstRow(
      sql,
      Invitation,
      `select id, programme, role, person, expires <= now() as expired, used, used_by, withdrawn
       from firstdark.invitation where secret_hash = $1 for update`,
      [hashOf(joining.invitation)],
    );
    if (invitation === null) return unknownInvitation;
    const again = await joinedBefore(sql, invitation, joining, key);
    if (again !== null) return done({ device: again, key });
    const spent = whySpent(invitation);
    if (spent !== null) return { ok: false, no: spent };
    const person = invitation.person ?? joining.person;
    const clash = await whyTaken(sql, invitation, joining, person);
    if (clash !== null) return { ok: false, no: clash };
    return done({ device: await enrol(sql, invitation, joining, person, key), key });
  });
}

const unknownInvitation = turnedAway(
  403,
  'invitation unknown',
  'This hub did not make this invitation. Check that the whole link was copied, or ask the lead for a new one.',
);

function whySpent({ used, withdrawn, expired }: Invitation): TurnedAway | null {
  if (used !== null) {
    return {
      status: 403,
      code: 'invitation used',
      message:
        'Somebody has joined by this invitation already, and it holds once. Ask the lead for a new one; if it was not you, tell them.',
    };
  }
  if (withdrawn !== null) {
    return {
      status: 403,
      code: 'invitation withdrawn',
      message: 'The lead has taken this invitation back. Ask for a new one.',
    };
  }
  if (expired) {
    return {
      status: 403,
      code: 'invitation expired',
      message: 'This invitation has run out. Ask the lead for a new one.',
    };
  }
  return null;
}

/**
 * The device, when this very device has used the invitation and its key was never used: then the
 * answer was lost on its way, and it gets a new key in place of the first. Null otherwise.
 */
async function joinedBefore(
  sql: Sql,
  { used_by }: Invitation,
  { device }: Joining,
  key: string,
): Promise<string | null> {
  const Rekeyed = z.object({ id: z.string() });
  const rekeyed = await firstRow(
    sql,
    Rekeyed,
    `update firstdark.device set key_hash = $3
     where id = $1::uuid and name = $2 and last_seen is null and revoked is null returning id`,
    [used_by, device, hashOf(key)],
  );
  return rekeyed?.id ?? null;
}

async function whyTaken(
  sql: Sql,
  invitation: Invitation,
  { device }: Joining,
  person: string,
): Promise<TurnedAway | null> {
  const Other = z.object({ name: z.string(), person: z.string(), revoked: z.nullable(z.date()) });
  const others = await rows(
    sql,
    Other,
    `select name, person, revoked from firstdark.device
     where programme = $1::uuid and (name = $2 or lower(person) = lower($3))`,
    [invitation.programme, device, person],
  );
  if (others.some(({ name, revoked }) => name === device && revoked === null)) {
    return {
      status: 409,
      code: 'device taken',
      message:
        'This device has joined already. Let the lead revoke it first, then use a new invitation.',
    };
  }
  const isNamedByLead = invitation.person !== null;
  if (!isNamedByLead && others.some((other) => isSame(other.person, person))) {
    return {
      status: 409,
      code: 'name taken',
      message: `Somebody is known as ${person} here already. Join under another name, or ask the lead for an invitation made for ${person}.`,
    };
  }
  return null;
}

const isSame = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

async function enrol(
  sql: Sql,
  { id: invitation, programme, role }: Invitation,
  { device: name, label }: Joining,
  person: string,
  key: string,
): Promise<string> {
  const Enrolled = z.object({ id: z.string() });
  const enrolled = await firstRow(
    sql,
    Enrolled,
    `insert into firstdark.device (programme, name, person, label, role, key_hash)
     values ($1::uuid, $2, $3, $4, $5, $6) returning id`,
    [programme, name, person, label, role, hashOf(key)],
  );
  if (enrolled === null) throw new Error('the device was not written');
  await sql.query(
    `insert into firstdark.device_team (device, team, position)
     select $1::uuid, team, position from firstdark.invitation_team where invitation = $2::uuid`,
    [enrolled.id, invitation],
  );
  await sql.query(
    'update firstdark.invitation set used = now(), used_by = $2::uuid where id = $1::uuid',
    [invitation, enrolled.id],
  );
  return enrolled.id;
}
