import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import fastify from 'fastify';
import { hashOf } from '../access/secret.ts';
import type { Database } from '../database/database.ts';
import { type Outcome, turnedAway } from '../turned-away.ts';
import { removeDoor, writeDoor } from './door-file.ts';
import { Order, operate } from './operate.ts';

/**
 * Opens a door for commands on this machine: a port of its own on loopback, and a secret in a file
 * that only the account of the hub can read. With PGlite nobody else can open the folder meanwhile.
 */
export async function openDoor(
  database: Database,
  folder: string,
  before: () => Promise<void>,
): Promise<{ close(): Promise<void> }> {
  const secret = randomBytes(32).toString('base64url');
  const server = fastify({ bodyLimit: 64 * 1024, forceCloseConnections: true });
  server.post('/', async (request): Promise<Outcome<unknown>> => {
    if (!isSame(request.headers.authorization ?? '', `Bearer ${secret}`)) {
      return turnedAway(401, 'no operator', 'This door is for whoever runs the hub.');
    }
    const order = Order.safeParse(request.body);
    if (!order.success) {
      return turnedAway(400, 'bad request', order.error.issues[0]?.message ?? 'not readable');
    }
    await before();
    return operate(database, order.data);
  });
  await server.listen({ host: '127.0.0.1', port: 0 });
  const { port } = server.server.address() as AddressInfo;
  await writeDoor(folder, { port, secret });
  return {
    close: async () => {
      await removeDoor(folder);
      await server.close();
    },
  };
}

/** Of one length by hashing, so that the time it takes tells nothing. */
function isSame(a: string, b: string): boolean {
  return timingSafeEqual(Buffer.from(hashOf(a)), Buffer.from(hashOf(b)));
}
