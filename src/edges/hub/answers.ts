import * as z from 'zod/mini';

/** What a hub answers, read before it is believed. Fields that come later are let through. */
export const ReceiptAnswer = z.object({
  kept: z.array(z.string()),
  known: z.array(z.string()),
  refused: z.array(
    z.object({ id: z.string(), code: z.string(), reason: z.string(), again: z.boolean() }),
  ),
});

export const PageAnswer = z.object({
  events: z.array(z.object({ event: z.unknown(), brought_by: z.nullable(z.string()) })),
  cursor: z.string(),
  more: z.boolean(),
  behind: z.number(),
});

export const Role = z.enum(['lead', 'sitter', 'permit holder', 'reader']);

const membership = {
  programme: z.object({ id: z.string(), name: z.string() }),
  person: z.string(),
  device: z.string(),
  role: Role,
  teams: z.array(z.string()),
};
export const JoinAnswer = z.object({ ...membership, key: z.string() });
export const MeAnswer = z.object(membership);

export const InvitationAnswer = z.object({
  id: z.string(),
  invitation: z.string(),
  link: z.string(),
  expires: z.string(),
});

export const InvitationsAnswer = z.array(
  z.object({
    id: z.string(),
    role: Role,
    teams: z.array(z.string()),
    person: z.nullable(z.string()),
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
    events_sent: z.number(),
    revoked: z.nullable(z.string()),
  }),
);

export const RevokedAnswer = z.looseObject({ events_readable: z.number() });

export const TeamsAnswer = z.array(z.string());

export const ErrorAnswer = z.object({
  error: z.object({ code: z.string(), message: z.string() }),
});
