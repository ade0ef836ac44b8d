import { once } from 'node:events';
import { createServer, type IncomingMessage, request as ask, type ServerResponse } from 'node:http';

/** What runs in every page before anything of the app does. */
const FIRST_SCRIPT = '/journey-first.js';
/** Where that script tells what goes wrong in a page. */
export const TELL = '/journey-tell';

/** The network of one device: what leaves it and what comes back goes through here. */
export interface DeviceProxy {
  readonly port: number;
  /** False: nobody answers any more. */
  isOnline: boolean;
  /** Text of the script that runs first in every page loaded from now on. */
  firstScript: string;
  close(): Promise<void>;
}

export interface ProxyListener {
  /** A page told of something. */
  told(text: string): void;
  /** A request was answered with 400 or above, or not at all. */
  failed(text: string): void;
}

/** Starts a proxy for one browser on loopback. Pages it hands on begin with the first script. */
export async function startDeviceProxy(listener: ProxyListener): Promise<DeviceProxy> {
  const server = createServer((request, response) => {
    const url = URL.parse(request.url ?? '');
    if (url === null) {
      response.writeHead(400).end();
    } else if (url.pathname === FIRST_SCRIPT) {
      const type = {
        'Content-Type': 'text/javascript; charset=utf-8',
        'Cache-Control': 'no-store',
      };
      response.writeHead(200, type).end(proxy.firstScript);
    } else if (url.pathname === TELL) {
      void textOf(request).then((text) => {
        listener.told(text);
        response.writeHead(204).end();
      });
    } else if (proxy.isOnline) {
      handOn(url, request, response, listener);
    } else {
      request.socket.destroy();
    }
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the proxy has no port');
  const proxy: DeviceProxy = {
    port: address.port,
    isOnline: true,
    firstScript: '',
    async close() {
      server.close();
      server.closeAllConnections();
      await once(server, 'close');
    },
  };
  return proxy;
}

async function textOf(stream: AsyncIterable<Uint8Array>): Promise<string> {
  const parts: Uint8Array[] = [];
  for await (const part of stream) parts.push(part);
  return Buffer.concat(parts).toString('utf8');
}

function handOn(
  url: URL,
  request: IncomingMessage,
  response: ServerResponse,
  listener: ProxyListener,
): void {
  // Uncompressed, so that a page can be begun with the first script.
  const { 'accept-encoding': _packed, 'proxy-connection': _proxy, ...headers } = request.headers;
  const onward = ask(url, { method: request.method, headers }, (answer) => {
    const status = answer.statusCode ?? 502;
    if (status >= 400) listener.failed(`${url.href}: ${status}`);
    const isPage = (answer.headers['content-type'] ?? '').startsWith('text/html');
    if (!isPage || status !== 200) {
      response.writeHead(status, answer.headers);
      answer.pipe(response);
      answer.on('error', () => response.destroy());
      return;
    }
    void textOf(answer).then((text) => {
      const begun = text.replace('<head>', `<head><script src="${FIRST_SCRIPT}"></script>`);
      const length = Buffer.byteLength(begun);
      const { 'transfer-encoding': _chunked, etag: _tag, ...kept } = answer.headers;
      response.writeHead(status, { ...kept, 'content-length': length });
      response.end(begun);
    });
  });
  onward.on('error', (problem) => {
    // What a page calls off itself is no failure.
    if (!response.destroyed) listener.failed(`${url.href}: ${problem.message}`);
    response.destroy();
  });
  response.on('close', () => onward.destroy());
  request.pipe(onward);
}
