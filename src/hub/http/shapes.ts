import * as z from 'zod/mini';
import { longestLife_h, usualLife_h } from '../access/invitations.ts';
import { PersonName, TeamName } from '../access/plain-name.ts';
import { Role } from '../access/role.ts';
import { mostEvents } from '../record/sort-batch.ts';
import { mostOnPage } from '../record/read-page.ts';

// What devices ask and what the hub answers: the routes are read by it, and described by it.

const moment = (instant: Date): string => instant.toISOString();
export const when = (instant: Date | null): string | null =>
  instant === null ? null : moment(instant);

const membership = {
  programme: z.object({ id: z.string(), name: z.string() }),
  person: z.string(),
  device: z.string(),
  role: Role,
  teams: z.array(z.string()),
  now: z.string(),
};
export const MeAnswer = z.object(membership);

export const JoinAsked = z.object({
  invitation: z.string().check(z.regex(/^fdi1_[A-Za-z0-9_-]{32}$/, 'an invitation, fdi1_…')),
  person: PersonName,
  /** What the device stamps on its events. */
  device: z.string().check(z.regex(/^[^\p{C}]{1,64}$/u, '1 to 64 visible characters')),
  label: z.optional(z.nullable(PersonName)),
});
export const JoinAnswer = z.object({ key: z.string(), ...membership });

export const EventsSent = z.object({
  team: z.optional(z.string()),
  events: z.optional(z.array(z.unknown()).check(z.maxLength(mostEvents * 4))),
  carried: z.optional(z.array(z.unknown()).check(z.maxLength(mostEvents * 4))),
});
export const ReceiptAnswer = z.object({
  kept: z.array(z.string()),
  known: z.array(z.string()),
  refused: z.array(
    z.object({ id: z.string(), code: z.string(), reason: z.string(), again: z.boolean() }),
  ),
});

export const PageAsked = z.object({
  after: z.optional(z.string().check(z.maxLength(20_000))),
  limit: z.optional(
    z.pipe(
      z.string().check(z.regex(/^\d{1,6}$/, 'a whole number')),
      z.transform((text) => Math.min(mostOnPage, Math.max(1, Number(text)))),
    ),
  ),
});
export const PageAnswer = z.object({
  events: z.array(z.object({ event: z.unknown(), brought_by: z.nullable(z.string()) })),
  cursor: z.string(),
  more: z.boolean(),
  behind: z.number(),
});

export const InvitationAsked = z.object({
  role: Role,
  teams: z._default(z.array(TeamName).check(z.maxLength(20)), []),
  person: z.optional(z.nullable(PersonName)),
  expires_h: z._default(z.number().check(z.positive(), z.lte(longestLife_h)), usualLife_h),
});
export const InvitationAnswer = z.object({
  id: z.string(),
  invitation: z.string(),
  /** The secret stands in its fragment, which no browser sends anywhere. */
  link: z.string(),
  expires: z.string(),
});
export const InvitationsAnswer = z.array(
  z.object({
    id: z.string(),
    role: Role,
    teams: z.array(z.string()),
    person: z.nullable(z.string()),
    made: z.string(),
    expires: z.string(),
  }),
);

export const DevicesAnswer = z.array(
  z.object({
    id: z.string(),
    person: z.string(),
    label: z.nullable(z.string()),
    role: Role,
    teams: z.array(z.string()),
    joined: z.string(),
    last_seen: z.nullable(z.string()),
    last_sent: z.nullable(z.string()),
    events_sent: z.number(),
    /** How many events it said it has. */
    read_up_to: z.number(),
    revoked: z.nullable(z.string()),
  }),
);
export const RevokeAsked = z.object({
  reason: z.optional(z.nullable(z.string().check(z.maxLength(500)))),
});
export const RevokedAnswer = z.object({
  id: z.string(),
  person: z.string(),
  label: z.nullable(z.string()),
  role: Role,
  teams: z.array(z.string()),
  last_seen: z.nullable(z.string()),
  events_sent: z.number(),
  events_readable: z.number(),
  /** How many of them it said it has: the most that lies on it. */
  events_read: z.number(),
});

export const TeamAsked = z.object({ name: TeamName });
export const TeamAnswer = z.object({ id: z.string(), name: z.string() });
export const TeamsAnswer = z.array(z.string());

export const ById = z.object({ id: z.guid('an id') });
export const DoneAnswer = z.object({ done: z.literal(true) });
export const HealthAnswer = z.object({ ok: z.literal(true) });
