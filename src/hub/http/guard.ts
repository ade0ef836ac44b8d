import rateLimit from '@fastify/rate-limit';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { type Asker, askerOf } from '../access/asker.ts';
import type { LastSeen } from '../access/last-seen.ts';
import type { Sql } from '../database/database.ts';
import type { TurnedAway } from '../turned-away.ts';
import { AtOnce, type Limits } from './limits.ts';
import { turnAway } from './turn-away.ts';
import type { HubServer } from './zod-routes.ts';

const askers = new WeakMap<FastifyRequest, Asker>();

/** The device that asks, on a route behind `withKey`. */
export function asker(request: FastifyRequest): Asker {
  const found = askers.get(request);
  if (found === undefined) throw new Error(`${request.url} has no guard`);
  return found;
}

/** The id of the device that asks, where one is known. */
export function askerId(request: FastifyRequest): string | undefined {
  return askers.get(request)?.id;
}

type Hook = (request: FastifyRequest, reply: FastifyReply) => Promise<unknown>;

/** What stands before the routes. All of it reads headers alone. */
export interface Guard {
  /** Lets in what an address may ask; before every route. */
  readonly address: Hook;
  /** Lets in a few tries to join. */
  readonly joining: Hook[];
  /** Lets in devices with a key that holds, as many requests as one may make, and at once. */
  readonly device: Hook[];
  /** The same for lines that stay open. */
  readonly line: Hook[];
  /** Lets in leads. */
  readonly lead: Hook[];
}

/** Makes the guard of a server. */
export async function makeGuard(
  server: HubServer,
  database: Sql,
  lastSeen: LastSeen,
  limits: Limits,
  now_ms: () => number,
): Promise<Guard> {
  await server.register(rateLimit, { global: false, cache: 20_000 });
  const byAddress = server.createRateLimit({ max: limits.perAddress, timeWindow: 60_000 });
  const byJoins = server.createRateLimit({ max: limits.joins, timeWindow: 60_000 });
  const byUnknownKeys = server.createRateLimit({ max: limits.unknownKeys, timeWindow: 60_000 });
  const byKey = server.createRateLimit({
    max: limits.perKey,
    timeWindow: 60_000,
    keyGenerator: (request) => asker(request).id,
  });
  const atOnce = new AtOnce(limits.atOncePerKey, limits.atOnce);

  const within =
    (count: typeof byAddress, who: string): Hook =>
    async (request, reply) => {
      const counted = await count(request);
      if (counted.isAllowed || !counted.isExceeded) return undefined;
      return turnAway(reply, tooMany(who, counted.ttlInSeconds));
    };
  const knowsKey: Hook = async (request, reply) => {
    const found = await askerOf(database, request.headers.authorization);
    if (found.ok) {
      askers.set(request, found.value);
      lastSeen.note(found.value.id, now_ms());
      return undefined;
    }
    const counted = await byUnknownKeys(request);
    if (counted.isAllowed || !counted.isExceeded) return turnAway(reply, found.no);
    request.log.warn({ address: request.ip }, 'many unknown keys');
    return turnAway(reply, tooMany('this address', counted.ttlInSeconds));
  };
  const hasPlace: Hook = async (request, reply) => {
    const { id } = asker(request);
    const entered = atOnce.enter(id);
    if (entered === 'one') return turnAway(reply, tooMany('this device', 1));
    if (entered === 'all') return turnAway(reply, busy);
    reply.raw.once('close', () => atOnce.leave(id));
    return undefined;
  };
  const leads: Hook = async (request, reply) => {
    const { role } = asker(request);
    return role === 'lead' ? undefined : turnAway(reply, notALead(role));
  };

  const line = [knowsKey, within(byKey, 'this device')];
  const device = [...line, hasPlace];
  return {
    address: within(byAddress, 'this address'),
    joining: [within(byJoins, 'this address')],
    line,
    device,
    lead: [...device, leads],
  };
}

const tooMany = (who: string, wait_s: number): TurnedAway => ({
  status: 429,
  code: 'too many',
  message: `Too many requests from ${who}. Nothing is lost; they are taken again in ${wait_s} s.`,
  wait_s,
});

const busy: TurnedAway = {
  status: 503,
  code: 'busy',
  message: 'The hub has more to do than it can right now. Nothing is lost; ask again shortly.',
  wait_s: 2,
};

const notALead = (role: string): TurnedAway => ({
  status: 403,
  code: 'not a lead',
  message: `Only a lead does this, and this device is a ${role}'s. Ask a lead.`,
});
