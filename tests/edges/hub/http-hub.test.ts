import { describe, expect, test } from 'vitest';
import { HttpHub } from '../../../src/edges/hub/http-hub.ts';
import { readInvitation, readInvitationLink } from '../../../src/edges/hub/invitation-link.ts';

interface Asked {
  readonly url: string;
  readonly method: string;
  readonly headers: Headers;
  readonly body: unknown;
}

/** A hub that answers as told, and what it was asked. */
function answering(answer: () => Response | Promise<Response>) {
  const asked: Asked[] = [];
  const gaps: (number | null)[] = [];
  const hub = new HttpHub({
    address: 'https://hub.example/',
    key: 'fd1_secret',
    now_ms: () => 1_000_000,
    clockGap: (gap_ms) => gaps.push(gap_ms),
    fetch: async (url, init) => {
      const request = new Request(url, init);
      asked.push({
        url: request.url,
        method: request.method,
        headers: request.headers,
        body: typeof init?.body === 'string' ? JSON.parse(init.body) : null,
      });
      return answer();
    },
  });
  return { hub, asked, gaps };
}

const json = (value: unknown, init: ResponseInit = {}): Response =>
  new Response(JSON.stringify(value), init);
const failing = (status: number, code: string, headers: Record<string, string> = {}): Response =>
  json({ error: { code, message: `because of ${code}` } }, { status, headers });

describe('a hub by HTTPS', () => {
  test('is asked with the key in a header, never in an address', async () => {
    const { hub, asked } = answering(() => json({ kept: ['a'], known: [], refused: [] }));
    expect(await hub.send({ events: [{ id: 'a' }], carried: [] })).toMatchObject({ ok: true });
    expect(asked[0]).toMatchObject({
      url: 'https://hub.example/api/events',
      method: 'POST',
      body: { events: [{ id: 'a' }], carried: [] },
    });
    expect(asked[0]?.headers.get('authorization')).toBe('Bearer fd1_secret');
    expect(asked[0]?.url).not.toContain('secret');
  });

  test.each([
    [401, 'key', 'shut out'],
    [409, 'cursor unknown', 'cursor unknown'],
    [413, 'too large', 'too large'],
    [429, 'busy', 'busy'],
    [503, 'database', 'out of reach'],
    [403, 'role', 'failed'],
  ])('an answer of %i (%s) is told as: %s', async (status, code, kind) => {
    const { hub } = answering(() => failing(status, code));
    expect(await hub.after(null)).toEqual({
      ok: false,
      problem: { kind, message: `because of ${code}` },
    });
  });

  test('how long it asks to be left alone is passed on', async () => {
    const { hub } = answering(() => failing(429, 'busy', { 'retry-after': '17' }));
    expect(await hub.after(null)).toMatchObject({ problem: { wait_s: 17 } });
  });

  test('no line, a proxy in the way and a page that is no hub are told apart', async () => {
    const noLine = answering(() => Promise.reject(new TypeError('no route')));
    expect(await noLine.hub.after(null)).toMatchObject({ problem: { kind: 'out of reach' } });
    const proxy = answering(() => new Response('<h1>Bad gateway</h1>', { status: 502 }));
    expect(await proxy.hub.after(null)).toMatchObject({ problem: { kind: 'out of reach' } });
    const other = answering(() => new Response('<h1>Welcome</h1>'));
    expect(await other.hub.after(null)).toMatchObject({ problem: { kind: 'failed' } });
  });

  test('a clock that is an hour ahead of the hub is noticed', async () => {
    const at = new Date(1_000_000 - 3_600_000).toISOString();
    const page = { events: [], cursor: 'c', more: false, behind: 0 };
    const { hub, gaps } = answering(() => json(page, { headers: { 'firstdark-now': at } }));
    await hub.after('b');
    expect(gaps).toEqual([3_600_000]);
  });

  test('news is told as it comes, and the line that breaks is a problem', async () => {
    const lines = [
      ': ping\n\n',
      'event: chan',
      'ged\ndata: {}\n\n',
      'event: changed\ndata: {}\n\n',
    ];
    const { hub } = answering(
      () =>
        new Response(
          new ReadableStream({
            start(controller) {
              for (const line of lines) controller.enqueue(new TextEncoder().encode(line));
              controller.close();
            },
          }),
        ),
    );
    let told = 0;
    const ended = await hub.changes(() => (told += 1), new AbortController().signal);
    expect(told).toBe(2);
    expect(ended).toMatchObject({ kind: 'out of reach' });
  });
});

describe('an invitation', () => {
  const secret = `fdi1_${'x'.repeat(32)}`;

  test('is read from the link a lead sends, or by itself', () => {
    expect(readInvitationLink(`https://hub.example/app/#/join/${secret}`)).toEqual({
      address: 'https://hub.example/app/',
      invitation: secret,
    });
    expect(readInvitation(`  ${secret}\n`)).toBe(secret);
    expect(readInvitation(`https://hub.example/#/join/${secret}`)).toBe(secret);
  });

  test('is not taken out of anything else', () => {
    for (const text of ['', 'https://hub.example/', `javascript:x#/join/${secret}`, '#/join/abc']) {
      expect(readInvitationLink(text)).toBeNull();
    }
  });
});
