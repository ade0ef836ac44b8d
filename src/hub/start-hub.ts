import type { AddressInfo } from 'node:net';
import type { Writable } from 'node:stream';
import compress from '@fastify/compress';
import fastify, { type FastifyRequest, LogController } from 'fastify';
import { SECURITY_HEADERS } from '../../scripts/security-headers.mjs';
import { LastSeen } from './access/last-seen.ts';
import { ChangeFeed } from './changes/change-feed.ts';
import { codeOf } from './database/database-trouble.ts';
import type { Database } from './database/database.ts';
import { serveApp } from './http/app-files.ts';
import { closable } from './http/close-server.ts';
import { addDeviceRoutes } from './http/device-routes.ts';
import { addEventRoutes } from './http/event-routes.ts';
import { askerId, makeGuard } from './http/guard.ts';
import { addLeadRoutes } from './http/lead-routes.ts';
import { type Limits, usualLimits } from './http/limits.ts';
import { describeRoutes } from './http/openapi.ts';
import { addStateRoutes } from './http/state-routes.ts';
import { answerError, turnAway } from './http/turn-away.ts';
import { type HubServer, useZod } from './http/zod-routes.ts';

export interface HubOptions {
  /** Migrated. The hub does not close it. */
  readonly database: Database;
  readonly host: string;
  /** 0 takes any free one. */
  readonly port: number;
  readonly now_ms: () => number;
  /** Certificate and private key as PEM; null: in the clear. */
  readonly tls: { readonly cert: Buffer; readonly key: Buffer } | null;
  /** A proxy in front speaks HTTPS and says in X-Forwarded-* who asks. */
  readonly behindProxy: boolean;
  /** Where the hub is reached from outside, with the closing slash; null: as it is asked. */
  readonly address: string | null;
  /** The built app; null: the hub alone. */
  readonly appFolder: string | null;
  /** Takes the log, a line of JSON each; null: none. */
  readonly log: Writable | null;
  readonly limits?: Partial<Limits>;
}

export interface RunningHub {
  /** With the closing slash. */
  readonly address: string;
  readonly port: number;
  /** Writes down which devices were here, which is otherwise done every few seconds. */
  writeDown(): Promise<void>;
  /** Finishes what was begun, ends the open lines, and listens no more. */
  close(): Promise<void>;
}

/** Starts a hub on a database. */
export async function startHub(options: HubOptions): Promise<RunningHub> {
  const { database, now_ms, tls, behindProxy } = options;
  const server = makeServer(options);
  const closeServer = closable(server);
  const failed = (what: string) => (error: unknown) => {
    server.log.warn({ code: codeOf(error) }, what);
  };
  const lastSeen = new LastSeen(database, failed('last seen was not written'));
  const feed = new ChangeFeed(database, failed('changes were not told'));
  const limits = { ...usualLimits, ...options.limits };
  const guard = await makeGuard(server, database, lastSeen, limits, now_ms);
  await server.register(compress, { global: false, globalDecompression: false });

  const isSafe = tls !== null || behindProxy;
  server.addHook('onRequest', async (request, reply) => {
    void reply.headers(SECURITY_HEADERS);
    if (isSafe) void reply.header('strict-transport-security', 'max-age=31536000');
    if (isOfApi(request)) void reply.header('firstdark-now', new Date(now_ms()).toISOString());
  });
  server.addHook('onRequest', guard.address);
  server.addHook('onResponse', async (request, reply) => {
    const { method, path } = asPath(request);
    const took_ms = Math.round(reply.elapsedTime);
    server.log.info({ method, path, status: reply.statusCode, took_ms, device: askerId(request) });
  });
  server.setErrorHandler(answerError);
  server.setNotFoundHandler((request, reply) =>
    turnAway(reply, {
      status: 404,
      code: 'not here',
      message: `There is nothing here for ${request.method} at this address.`,
    }),
  );

  await describeRoutes(server);
  await server.register(async (routes: HubServer) => {
    useZod(routes);
    addDeviceRoutes(routes, { database, guard, now_ms });
    addEventRoutes(routes, { database, guard, feed, lastSeen, limits, now_ms });
    addLeadRoutes(routes, { database, guard, lastSeen, addressFor });
    addStateRoutes(routes, database);
  });
  if (options.appFolder !== null) await serveApp(server, options.appFolder);
  await feed.start();
  await server.listen({ host: options.host, port: options.port });

  const { port } = server.server.address() as AddressInfo;
  const host = options.host.includes(':') ? `[${options.host}]` : options.host;
  const address = options.address ?? `${tls === null ? 'http' : 'https'}://${host}:${port}/`;

  function addressFor(request: FastifyRequest): string {
    return options.address ?? `${request.protocol}://${request.host}/`;
  }

  return {
    address,
    port,
    writeDown: () => lastSeen.write(),
    close: async () => {
      await feed.close();
      await closeServer();
      await lastSeen.write();
    },
  };
}

const isOfApi = ({ url }: FastifyRequest): boolean => url.startsWith('/api/');

/** Of a request its method and path; fastify would add headers and address. */
function asPath({ method, url }: { readonly method: string; readonly url: string }) {
  return { method, path: url.split(/[?#]/, 1)[0] };
}

function makeServer({ tls, behindProxy, log }: HubOptions): HubServer {
  return fastify({
    https: tls,
    // One step: what the proxy itself says. What a guest wrote into the header before it is not read.
    trustProxy: behindProxy ? (_, hop) => hop === 0 : false,
    bodyLimit: 64 * 1024,
    requestTimeout: 60_000,
    keepAliveTimeout: 72_000,
    // Longer than an open line is ever quiet.
    connectionTimeout: 90_000,
    forceCloseConnections: 'idle',
    // `onResponse` below writes one line a request: no header, no body, no query.
    logController: new LogController({ disableRequestLogging: true }),
    logger: log === null ? false : { level: 'info', stream: log, serializers: { req: asPath } },
  });
}
