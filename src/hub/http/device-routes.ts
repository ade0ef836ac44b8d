import { type Asker, deviceById } from '../access/asker.ts';
import { join } from '../access/join.ts';
import type { Database } from '../database/database.ts';
import { type Guard, asker } from './guard.ts';
import { JoinAnswer, JoinAsked, MeAnswer } from './shapes.ts';
import { turnAway } from './turn-away.ts';
import type { HubServer } from './zod-routes.ts';

/** Adds how a device joins, and how it learns as whom it is known. */
export function addDeviceRoutes(
  server: HubServer,
  parts: { readonly database: Database; readonly guard: Guard; readonly now_ms: () => number },
): void {
  const { database, guard, now_ms } = parts;
  const membershipOf = ({ programme, programme_name, person, name, role, teams }: Asker) => ({
    programme: { id: programme, name: programme_name },
    person,
    device: name,
    role,
    teams: teams.map((team) => team.name),
    now: new Date(now_ms()).toISOString(),
  });

  server.post(
    '/api/join',
    {
      onRequest: guard.joining,
      bodyLimit: 16 * 1024,
      schema: {
        summary: 'Uses an invitation up; gives the key, which is not shown again.',
        body: JoinAsked,
        response: { 200: JoinAnswer },
      },
    },
    async (request, reply) => {
      const { invitation, person, device, label = null } = request.body;
      const joined = await join(database, { invitation, person, device, label });
      if (!joined.ok) {
        request.log.warn({ address: request.ip, refused: joined.no.code }, 'did not join');
        return turnAway(reply, joined.no);
      }
      const known = await deviceById(database, joined.value.device);
      if (known === null) throw new Error('a device that has joined is not there');
      request.log.info({ device: known.id, role: known.role }, 'joined');
      void reply.header('cache-control', 'no-store');
      return { key: joined.value.key, ...membershipOf(known) };
    },
  );

  server.get(
    '/api/me',
    {
      onRequest: guard.device,
      schema: {
        summary: 'As whom the hub knows this device.',
        security: [{ key: [] }],
        response: { 200: MeAnswer },
      },
    },
    async (request) => membershipOf(asker(request)),
  );
}
