import type { Server } from 'node:http';
import type { Socket } from 'node:net';
import type { HubServer } from './zod-routes.ts';

/** What was begun when a hub is closed may take this long, milliseconds. */
const lastRequests_ms = 15_000;

/** Remembers the connections of a server, so that it can be closed in peace: gives the way to do so. */
export function closable(server: HubServer): () => Promise<void> {
  const node: Server = server.server;
  const open = new Set<Socket>();
  node.on('connection', (socket: Socket) => {
    open.add(socket);
    socket.once('close', () => open.delete(socket));
  });
  return async () => {
    const until_ms = performance.now() + lastRequests_ms;
    // Requests may end; a connection that is kept for the next one, or on which nothing was ever
    // asked, would hold the hub up.
    const closing = setInterval(() => {
      if (performance.now() > until_ms) node.closeAllConnections();
      node.closeIdleConnections();
      for (const socket of open) if (socket.bytesRead === 0) socket.destroy();
    }, 50);
    await server.close();
    clearInterval(closing);
  };
}
