import * as z from 'zod/mini';
import { deviceById } from '../access/asker.ts';
import { devicesOf, revokeDevice } from '../access/devices.ts';
import { invite, longestLife_h } from '../access/invitations.ts';
import { PersonName, ProgrammeName, TeamName } from '../access/plain-name.ts';
import { addProgramme, programmeNamed, programmesOf } from '../access/programmes.ts';
import { Role } from '../access/role.ts';
import type { Database } from '../database/database.ts';
import { when } from '../http/shapes.ts';
import { invitationLink } from '../invitation-link.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { hubAddress } from './hub-address.ts';

/** What whoever runs a hub can have done, by command, without a key. */
export const Order = z.discriminatedUnion('order', [
  z.object({
    order: z.literal('invite'),
    programme: z.nullable(ProgrammeName),
    role: Role,
    teams: z.array(TeamName),
    person: z.nullable(PersonName),
    expires_h: z.number().check(z.positive(), z.lte(longestLife_h)),
    /** Where the hub is reached; null: where it last said it was. */
    address: z.nullable(z.string()),
  }),
  z.object({ order: z.literal('devices'), programme: z.nullable(ProgrammeName) }),
  z.object({
    order: z.literal('revoke'),
    id: z.guid('the id of a device'),
    reason: z.nullable(z.string()),
  }),
  z.object({ order: z.literal('programmes') }),
  z.object({ order: z.literal('add programme'), name: ProgrammeName }),
]);
export type Order = z.infer<typeof Order>;

export const InviteDone = z.object({
  id: z.string(),
  programme: z.string(),
  invitation: z.string(),
  link: z.string(),
  expires: z.string(),
});
export const DevicesDone = z.array(
  z.object({
    programme: z.string(),
    id: z.string(),
    person: z.string(),
    label: z.nullable(z.string()),
    role: Role,
    teams: z.array(z.string()),
    joined: z.string(),
    last_seen: z.nullable(z.string()),
    last_sent: z.nullable(z.string()),
    events_sent: z.number(),
    read_up_to: z.number(),
    revoked: z.nullable(z.string()),
  }),
);
export const RevokeDone = z.object({
  id: z.string(),
  person: z.string(),
  label: z.nullable(z.string()),
  role: Role,
  teams: z.array(z.string()),
  last_seen: z.nullable(z.string()),
  events_sent: z.number(),
  events_readable: z.number(),
  events_read: z.number(),
});
export const ProgrammesDone = z.array(
  z.object({ id: z.string(), name: z.string(), devices: z.number(), leads: z.number() }),
);

/** Carries an order out; the answer is plain JSON, read by the schema of its order above. */
export async function operate(database: Database, order: Order): Promise<Outcome<unknown>> {
  switch (order.order) {
    case 'invite':
      return inviteBy(database, order);
    case 'devices':
      return done(await devicesIn(database, order.programme));
    case 'revoke':
      return revoke(database, order.id, order.reason);
    case 'programmes':
      return done(await programmesOf(database));
    case 'add programme': {
      const added = await addProgramme(database, order.name);
      return added.ok ? done([added.value]) : added;
    }
  }
}

async function inviteBy(
  database: Database,
  order: Extract<Order, { order: 'invite' }>,
): Promise<Outcome<z.infer<typeof InviteDone>>> {
  const programme = await programmeNamed(database, order.programme);
  if (!programme.ok) return programme;
  const address = order.address ?? (await hubAddress(database));
  if (address === null) {
    return turnedAway(
      400,
      'address unknown',
      'No hub has run on this database yet, so a link would lead nowhere. Give --address.',
    );
  }
  const { role, teams, person, expires_h } = order;
  const wanted = { role, teams, person, expires_h, madeBy: null, missingTeams: 'add' } as const;
  const invited = await invite(database, programme.value.id, wanted);
  if (!invited.ok) return invited;
  const { id, invitation, expires } = invited.value;
  return done({
    id,
    programme: programme.value.name,
    invitation,
    link: invitationLink(address, invitation),
    expires: expires.toISOString(),
  });
}

async function devicesIn(
  database: Database,
  name: string | null,
): Promise<z.infer<typeof DevicesDone>> {
  const all = (await programmesOf(database)).filter(
    (programme) => name === null || programme.name.toLowerCase() === name.toLowerCase(),
  );
  const lists = await Promise.all(
    all.map(async (programme) =>
      (await devicesOf(database, programme.id)).map((device) => ({
        ...device,
        programme: programme.name,
        joined: device.joined.toISOString(),
        last_seen: when(device.last_seen),
        last_sent: when(device.last_sent),
        revoked: when(device.revoked),
      })),
    ),
  );
  return lists.flat();
}

async function revoke(
  database: Database,
  id: string,
  reason: string | null,
): Promise<Outcome<z.infer<typeof RevokeDone>>> {
  const device = await deviceById(database, id);
  if (device === null) {
    return turnedAway(
      404,
      'device unknown',
      `There is no device ${id} on this hub. "firstdark hub devices" shows their ids.`,
    );
  }
  const revoked = await revokeDevice(database, device.programme, id, reason);
  if (!revoked.ok) return revoked;
  const { teams, last_seen, ...rest } = revoked.value;
  return done({ ...rest, teams: [...teams], last_seen: when(last_seen) });
}
