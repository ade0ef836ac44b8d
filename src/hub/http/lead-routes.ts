import type { FastifyRequest } from 'fastify';
import { devicesOf, revokeDevice } from '../access/devices.ts';
import { invite, openInvitations, withdrawInvitation } from '../access/invitations.ts';
import type { LastSeen } from '../access/last-seen.ts';
import { addTeam, teamsOf } from '../access/teams.ts';
import type { Database } from '../database/database.ts';
import { invitationLink } from '../invitation-link.ts';
import { type Guard, asker } from './guard.ts';
import {
  ById,
  DevicesAnswer,
  DoneAnswer,
  InvitationAnswer,
  InvitationAsked,
  InvitationsAnswer,
  RevokeAsked,
  RevokedAnswer,
  TeamAnswer,
  TeamAsked,
  TeamsAnswer,
  when,
} from './shapes.ts';
import { turnAway } from './turn-away.ts';
import type { HubServer } from './zod-routes.ts';

/** Adds what a lead does: invite, see the devices and revoke them, make teams. */
export function addLeadRoutes(
  server: HubServer,
  parts: {
    readonly database: Database;
    readonly guard: Guard;
    readonly lastSeen: LastSeen;
    /** The hub's address for a request, with the closing slash. */
    readonly addressFor: (request: FastifyRequest) => string;
  },
): void {
  const { database, guard, lastSeen, addressFor } = parts;
  const onRequest = guard.lead;
  const bodyLimit = 16 * 1024;
  const security = [{ key: [] }];

  server.post(
    '/api/invitations',
    {
      onRequest,
      bodyLimit,
      schema: {
        summary: 'Invites one device; the link is not shown again.',
        security,
        body: InvitationAsked,
        response: { 200: InvitationAnswer },
      },
    },
    async (request, reply) => {
      const { id: madeBy, programme } = asker(request);
      const { role, teams, person = null, expires_h } = request.body;
      const wanted = { role, teams, person, expires_h, madeBy, missingTeams: 'refuse' } as const;
      const invited = await invite(database, programme, wanted);
      if (!invited.ok) return turnAway(reply, invited.no);
      const { id, invitation, expires } = invited.value;
      void reply.header('cache-control', 'no-store');
      const link = invitationLink(addressFor(request), invitation);
      return { id, invitation, link, expires: expires.toISOString() };
    },
  );

  server.get(
    '/api/invitations',
    {
      onRequest,
      schema: {
        summary: 'The invitations that can still be used, without their secrets.',
        security,
        response: { 200: InvitationsAnswer },
      },
    },
    async (request) =>
      (await openInvitations(database, asker(request).programme)).map((invitation) => ({
        ...invitation,
        made: invitation.made.toISOString(),
        expires: invitation.expires.toISOString(),
      })),
  );

  server.post(
    '/api/invitations/:id/withdraw',
    {
      onRequest,
      bodyLimit,
      schema: {
        summary: 'Takes back an invitation that nobody has used.',
        security,
        params: ById,
        response: { 200: DoneAnswer },
      },
    },
    async (request, reply) => {
      const withdrawn = await withdrawInvitation(
        database,
        asker(request).programme,
        request.params.id,
      );
      return withdrawn.ok ? { done: true as const } : turnAway(reply, withdrawn.no);
    },
  );

  server.get(
    '/api/devices',
    {
      onRequest,
      schema: {
        summary: 'The devices of the programme.',
        security,
        response: { 200: DevicesAnswer },
      },
    },
    async (request) => {
      await lastSeen.write();
      return (await devicesOf(database, asker(request).programme)).map((device) => ({
        ...device,
        joined: device.joined.toISOString(),
        last_seen: when(device.last_seen),
        last_sent: when(device.last_sent),
        revoked: when(device.revoked),
      }));
    },
  );

  server.post(
    '/api/devices/:id/revoke',
    {
      onRequest,
      bodyLimit,
      schema: {
        summary: 'Shuts a device out, and says what it had.',
        security,
        params: ById,
        body: RevokeAsked,
        response: { 200: RevokedAnswer },
      },
    },
    async (request, reply) => {
      await lastSeen.write();
      const { programme, id: by } = asker(request);
      const { reason = null } = request.body;
      const revoked = await revokeDevice(database, programme, request.params.id, reason);
      if (!revoked.ok) return turnAway(reply, revoked.no);
      request.log.info({ device: revoked.value.id, by }, 'revoked');
      const { teams, last_seen, ...rest } = revoked.value;
      return { ...rest, teams: [...teams], last_seen: when(last_seen) };
    },
  );

  server.get(
    '/api/teams',
    {
      onRequest: guard.device,
      schema: { summary: 'The teams by name.', security, response: { 200: TeamsAnswer } },
    },
    async (request) => (await teamsOf(database, asker(request).programme)).map(({ name }) => name),
  );

  server.post(
    '/api/teams',
    {
      onRequest,
      bodyLimit,
      schema: {
        summary: 'Adds a team.',
        security,
        body: TeamAsked,
        response: { 200: TeamAnswer },
      },
    },
    async (request, reply) => {
      const { programme } = asker(request);
      const added = await database.transaction((sql) => addTeam(sql, programme, request.body.name));
      return added.ok ? { ...added.value } : turnAway(reply, added.no);
    },
  );
}
