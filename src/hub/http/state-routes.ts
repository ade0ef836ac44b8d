import type { Database } from '../database/database.ts';
import { databaseTrouble } from '../database/database-trouble.ts';
import { HealthAnswer } from './shapes.ts';
import { turnAway } from './turn-away.ts';
import type { HubServer } from './zod-routes.ts';

/** Adds what a watchman or a proxy asks: whether the process lives, and whether it can serve. */
export function addStateRoutes(server: HubServer, database: Database): void {
  server.get(
    '/health',
    { schema: { summary: 'The process lives.', response: { 200: HealthAnswer } } },
    async () => ({ ok: true as const }),
  );
  server.get(
    '/ready',
    {
      schema: {
        summary: 'The database answers, and its tables are there.',
        response: { 200: HealthAnswer },
      },
    },
    async (_, reply) => {
      try {
        await database.query('select count(*)::int from firstdark.programme');
        return { ok: true as const };
      } catch (error) {
        const trouble = databaseTrouble(error);
        if (trouble !== null) return turnAway(reply, trouble);
        throw error;
      }
    },
  );
  server.get(
    '/api/openapi.json',
    { compress: {}, schema: { summary: 'This description.' } },
    async () => server.swagger(),
  );
}
