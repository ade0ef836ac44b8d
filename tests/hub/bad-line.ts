import { type IncomingMessage, createServer, request } from 'node:http';
import { once } from 'node:events';
import type { AddressInfo } from 'node:net';

/** What a line does to one request. */
export type Fate = 'through' | 'lost' | 'answer lost' | 'answer cut' | 'twice' | 'slow';

export interface BadLine {
  /** With the closing slash. */
  readonly address: string;
  /** Asked once for each request. */
  fate: () => Fate;
  close(): Promise<void>;
}

const slow_ms = 40;

/** A proxy on loopback in front of a server, that loses, cuts, repeats and delays. */
export async function badLine(target: string): Promise<BadLine> {
  const line: { fate: () => Fate } = { fate: () => 'through' };
  const server = createServer((asked, answer) => {
    void (async () => {
      const body = await bodyOf(asked);
      const fate = line.fate();
      const hangUp = (): void => {
        asked.socket.destroy();
      };
      if (fate === 'lost') {
        hangUp();
        return;
      }
      if (fate === 'slow') await new Promise((settle) => setTimeout(settle, slow_ms));
      try {
        if (fate === 'twice') await passOn(target, asked, body);
        const passed = await passOn(target, asked, body);
        if (fate === 'answer lost') {
          hangUp();
          return;
        }
        answer.writeHead(passed.status, passed.headers);
        if (fate === 'answer cut') {
          answer.write(passed.body.subarray(0, passed.body.length / 2), hangUp);
          return;
        }
        answer.end(passed.body);
      } catch {
        hangUp();
      }
    })();
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  const { port } = server.address() as AddressInfo;
  return Object.assign(line, {
    address: `http://127.0.0.1:${port}/`,
    async close() {
      server.closeAllConnections();
      server.close();
      await once(server, 'close');
    },
  });
}

interface Passed {
  readonly status: number;
  readonly headers: IncomingMessage['headers'];
  readonly body: Buffer;
}

async function passOn(target: string, asked: IncomingMessage, body: Buffer): Promise<Passed> {
  const { host: _, connection: __, ...headers } = asked.headers;
  const onward = request(new URL(asked.url ?? '/', target), { method: asked.method, headers });
  onward.end(body);
  const [answer] = (await once(onward, 'response')) as [IncomingMessage];
  const { 'transfer-encoding': ___, ...rest } = answer.headers;
  const whole = await bodyOf(answer);
  const length = { 'content-length': String(whole.length) };
  return { status: answer.statusCode ?? 502, headers: { ...rest, ...length }, body: whole };
}

async function bodyOf(message: IncomingMessage): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of message) parts.push(part as Buffer);
  return Buffer.concat(parts);
}
