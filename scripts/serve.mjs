// A small static server for the built app. It listens on this machine alone.
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { createServer } from 'node:http';
import { extname, resolve, sep } from 'node:path';
import { pipeline } from 'node:stream';
import { createGzip } from 'node:zlib';
import { SECURITY_HEADERS } from './security-headers.mjs';

const CONTENT_TYPES = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.webmanifest': 'application/manifest+json; charset=utf-8',
  '.wasm': 'application/wasm',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.wav': 'audio/wav',
  '.csv': 'text/csv; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.zip': 'application/zip',
};

/** These are worth packing; pictures and sounds are packed already, the solver is used by few. */
const PACKED = new Set(['.html', '.js', '.css', '.json', '.webmanifest', '.svg']);

/** Files in here carry a hash of their content in their name, so they never change. */
const HASHED_FOLDER = 'assets';

/**
 * The file that a request path stands for, or null when it points outside `folder`, at a hidden
 * file, or cannot be read as a path at all.
 */
export function fileFor(folder, requestPath) {
  let path;
  try {
    path = decodeURIComponent(requestPath.split(/[?#]/, 1)[0]);
  } catch {
    return null;
  }
  if (!path.startsWith('/') || /[\0\\]/.test(path)) return null;
  if (path.split('/').some((part) => part.startsWith('.'))) return null;
  const root = resolve(folder);
  const file = resolve(root, `.${path.endsWith('/') ? `${path}index.html` : path}`);
  return file.startsWith(root + sep) ? file : null;
}

/** Answers one request from the files in `folder`. */
async function answer(folder, request, response) {
  const end = (status, headers = {}) => {
    response.writeHead(status, { ...SECURITY_HEADERS, 'Cache-Control': 'no-cache', ...headers });
    response.end(request.method === 'HEAD' || status === 304 ? undefined : `${status}\n`);
  };
  if (request.method !== 'GET' && request.method !== 'HEAD')
    return end(405, { Allow: 'GET, HEAD' });

  const file = fileFor(folder, request.url ?? '/');
  const found = file === null ? null : await stat(file).catch(() => null);
  if (file === null || !found?.isFile()) return end(404);

  const hashed = file.startsWith(resolve(folder, HASHED_FOLDER) + sep);
  const tag = `"${found.size.toString(36)}-${Math.round(found.mtimeMs).toString(36)}"`;
  const headers = {
    'Content-Type': CONTENT_TYPES[extname(file)] ?? 'application/octet-stream',
    'Cache-Control': hashed ? 'public, max-age=31536000, immutable' : 'no-cache',
    ETag: tag,
  };
  if (request.headers['if-none-match'] === tag) return end(304, headers);

  const isPacked =
    PACKED.has(extname(file)) && /\bgzip\b/.test(request.headers['accept-encoding'] ?? '');
  const size = isPacked ? { 'Content-Encoding': 'gzip' } : { 'Content-Length': found.size };
  response.writeHead(200, { ...SECURITY_HEADERS, ...headers, ...size, Vary: 'Accept-Encoding' });
  if (request.method === 'HEAD') return response.end();
  const packing = isPacked ? [createGzip()] : [];
  pipeline([createReadStream(file), ...packing, response], () => undefined);
}

/** Listens on the port, or on the next free one of the `tries` after it. */
async function listen(server, host, port, tries) {
  for (let next = port; ; next++) {
    const problem = await new Promise((settle) => {
      server.once('error', settle);
      server.listen(next, host, () => {
        server.removeListener('error', settle);
        settle(null);
      });
    });
    if (problem === null) return;
    if (problem.code !== 'EADDRINUSE' || next >= port + tries) throw problem;
  }
}

/**
 * Serves a folder on loopback. `port` 0 takes any free one; `tries` is how many ports after it may
 * be tried when it is taken. Gives the address and a way to end, which cuts open connections.
 */
export async function serveFolder(folder, { port = 0, host = '127.0.0.1', tries = 0 } = {}) {
  const server = createServer((request, response) => {
    answer(folder, request, response).catch((problem) => {
      console.error(`${request.url}: ${problem.message}`);
      response.destroy();
    });
  });
  await listen(server, host, port, tries);
  const taken = server.address().port;
  return {
    address: `http://${host}:${taken}/`,
    port: taken,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}
