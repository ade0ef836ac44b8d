import { sep } from 'node:path';
import files from '@fastify/static';
import type { HubServer } from './zod-routes.ts';

/** Files in here carry a hash of their content in their name, so they never change. */
const HASHED = `${sep}assets${sep}`;

/** Serves the built app beside the hub, so that both have one origin. */
export async function serveApp(server: HubServer, folder: string): Promise<void> {
  await server.register(files, {
    root: folder,
    dotfiles: 'ignore',
    cacheControl: false,
    setHeaders: (reply, path) => {
      const isHashed = path.includes(HASHED);
      void reply.header(
        'cache-control',
        isHashed ? 'public, max-age=31536000, immutable' : 'no-cache',
      );
    },
  });
}
