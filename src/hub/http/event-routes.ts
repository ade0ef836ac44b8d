import { type Asker, deviceById } from '../access/asker.ts';
import type { LastSeen } from '../access/last-seen.ts';
import { teamsOf, isSameName } from '../access/teams.ts';
import type { ChangeFeed } from '../changes/change-feed.ts';
import { EventStream } from '../changes/event-stream.ts';
import type { Database } from '../database/database.ts';
import { keepBatch } from '../record/keep-batch.ts';
import { mostOnPage, readPage } from '../record/read-page.ts';
import { type Outcome, done, turnedAway } from '../turned-away.ts';
import { type Guard, asker } from './guard.ts';
import { AtOnce, type Limits } from './limits.ts';
import { EventsSent, PageAnswer, PageAsked, ReceiptAnswer } from './shapes.ts';
import { turnAway } from './turn-away.ts';
import type { HubServer } from './zod-routes.ts';

/** Bytes of one request. */
const mostBytes = 1024 * 1024;

export interface EventParts {
  readonly database: Database;
  readonly guard: Guard;
  readonly feed: ChangeFeed;
  readonly lastSeen: LastSeen;
  readonly limits: Limits;
  readonly now_ms: () => number;
}

/** Events in, events out, and the line that says when there are new ones. */
export function addEventRoutes(server: HubServer, parts: EventParts): void {
  const { database, guard, feed, lastSeen, limits, now_ms } = parts;
  const security = [{ key: [] }];

  server.post(
    '/api/events',
    {
      onRequest: guard.device,
      bodyLimit: mostBytes,
      schema: {
        summary: 'Hands events over; the same batch again changes nothing.',
        security,
        body: EventsSent,
        response: { 200: ReceiptAnswer },
      },
    },
    async (request, reply) => {
      const device = asker(request);
      const { team: name, events = [], carried = [] } = request.body;
      const team = await teamToWrite(database, device, name);
      if (!team.ok) return turnAway(reply, team.no);
      const kept = await keepBatch(database, device, { team: team.value, events, carried });
      if (!kept.ok) return turnAway(reply, kept.no);
      if (kept.value.kept.length > 0) feed.newEvents(device.programme, team.value);
      const { kept: ids, known, refused } = kept.value;
      return { kept: [...ids], known: [...known], refused: [...refused] };
    },
  );

  server.get(
    '/api/events',
    {
      onRequest: guard.device,
      compress: {},
      schema: {
        summary: 'The events after a cursor; without one, from the beginning.',
        security,
        querystring: PageAsked,
        response: { 200: PageAnswer },
      },
    },
    async (request, reply) => {
      const device = asker(request);
      const { after = null, limit = mostOnPage } = request.query;
      const read = await readPage(database, device, after, limit);
      if (!read.ok) return turnAway(reply, read.no);
      const { page, readBefore } = read.value;
      if (after !== null) lastSeen.note(device.id, now_ms(), readBefore);
      void reply.header('cache-control', 'no-store');
      return { ...page, events: [...page.events] };
    },
  );

  const lines = new AtOnce(limits.linesPerKey, limits.lines);
  server.get(
    '/api/changes',
    {
      onRequest: guard.line,
      schema: {
        summary: 'Server-sent events: `changed` when there is something new for this device.',
        security,
        produces: ['text/event-stream'],
      },
    },
    async (request, reply) => {
      const device = asker(request);
      const entered = lines.enter(device.id);
      if (entered !== 'entered') return turnAway(reply, manyLines.no);
      reply.hijack();
      const stream = new EventStream(reply.raw, { 'firstdark-now': instant(now_ms()) });
      const ownTeams = new Set([device.everyone, ...device.teams.map(({ id }) => id)]);
      const leave = feed.add({
        device: device.id,
        programme: device.programme,
        reads: (team) => device.role === 'lead' || ownTeams.has(team),
        changed: () => stream.changed(),
        end: () => stream.end(),
      });
      reply.raw.on('close', () => {
        leave();
        lines.leave(device.id);
      });
      // It may have been shut out, or missed something, since it was let in.
      const still = await deviceById(database, device.id).catch(() => null);
      if (still?.revoked === null) stream.changed();
      else stream.end();
      return reply;
    },
  );
}

const manyLines = turnedAway(
  429,
  'too many',
  'This device holds as many open lines as it may. Close the app in other windows.',
  30,
);

export const instant = (at_ms: number): string => new Date(at_ms).toISOString();

/** The id of the team that a batch is for: the one it names, else the device's first, else everyone. */
async function teamToWrite(
  database: Database,
  device: Asker,
  name: string | undefined,
): Promise<Outcome<string>> {
  if (name === undefined) return done(device.teams[0]?.id ?? device.everyone);
  const own = device.teams.find((team) => isSameName(team.name, name));
  if (own !== undefined) return done(own.id);
  const all = await teamsOf(database, device.programme);
  const found = all.find((team) => isSameName(team.name, name));
  if (found !== undefined && (found.is_everyone || device.role === 'lead')) return done(found.id);
  return turnedAway(
    403,
    'team closed',
    `This device does not write to a team ${name}. Leave the team out, and it goes to its own.`,
  );
}
