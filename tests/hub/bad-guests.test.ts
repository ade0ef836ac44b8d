import { randomBytes, randomUUID } from 'node:crypto';
import { request } from 'node:http';
import { connect } from 'node:net';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { usualLimits } from '../../src/hub/http/limits.ts';
import type { RunningHub } from '../../src/hub/start-hub.ts';
import { aHub, aProgramme, leadInvitation, logText } from './a-hub.ts';
import { embeddedDatabase } from './embedded.ts';
import { Guest, type HubDevice, codeIn, idsOf, invited } from './guest.ts';

let opened: Awaited<ReturnType<typeof embeddedDatabase>>;
let hub: RunningHub;
const log = logText();

beforeAll(async () => {
  opened = await embeddedDatabase();
  hub = await aHub(opened.database, { log: log.stream, limits: { ...usualLimits, joins: 30 } });
}, 180_000);

afterAll(async () => {
  await hub.close();
  await opened.drop();
});

const newLead = async (): Promise<HubDevice> =>
  (await aProgramme(opened.database, hub.address)).lead;

/** One request written by hand; gives the status line. */
function raw(text: string): Promise<string> {
  return new Promise((settle, fail) => {
    const socket = connect(hub.port, '127.0.0.1', () => socket.write(text));
    let answer = '';
    socket.on('data', (part: Buffer) => (answer += part.toString()));
    socket.on('close', () => settle(answer.split('\r\n')[0] ?? ''));
    socket.on('error', fail);
    socket.setTimeout(5000, () => socket.destroy());
  });
}

describe('what does not fit', () => {
  test('too much at once is refused, and says how much would do', async () => {
    const lead = await newLead();
    const large = await lead.post('api/events', { events: [lead.note('x'.repeat(1_100_000))] });
    expect([large.status, codeIn(large)]).toEqual([413, 'too large']);
    const many = await lead.post('api/events', {
      events: Array.from({ length: 501 }, () => lead.note()),
    });
    expect([many.status, codeIn(many)]).toEqual([413, 'too large']);
    const [small, one] = [lead.note(), lead.note('x'.repeat(70_000))];
    const { kept, refused } = await lead.send([small, one]);
    expect(kept).toEqual([small.id]);
    expect(refused).toMatchObject([{ id: one.id, code: 'too large', again: false }]);
    expect(refused[0]?.reason).toContain('69 kB, and 64 kB is the most');
  });

  test.each([
    ['no JSON', '{"events": [', 400],
    ['a list', '[1, 2]', 400],
    ['nothing', '', 400],
    ['events that are none', '{"events": 7}', 400],
    ['a prototype', '{"events": [], "__proto__": {"role": "lead"}}', 400],
    ['a thousand lists in each other', `{"events": ${'['.repeat(1000)}${']'.repeat(1000)}}`, 400],
  ])('%s is a bad request', async (_, body, status) => {
    const lead = await newLead();
    const answer = await lead.post('api/events', body);
    expect([answer.status, codeIn(answer)]).toEqual([status, 'bad request']);
  });

  test('a note that is nested without end is refused by itself', async () => {
    const lead = await newLead();
    const deep = `${'['.repeat(20_000)}${']'.repeat(20_000)}`;
    const [good, bad] = [lead.note(), lead.note()];
    const badText = `${JSON.stringify(bad).slice(0, -1)}, "extra": ${deep}}`;
    const text = `{"events": [${JSON.stringify(good)}, ${badText}, ${badText}]}`;
    expect((await lead.post('api/events', text)).body).toMatchObject({
      kept: [good.id],
      refused: [{ id: bad.id, code: 'unreadable' }],
    });
  });

  test('what is no JSON by its own word, or compressed, is not read', async () => {
    const lead = await newLead();
    const form = await lead.post('api/events', 'events=1', {
      'content-type': 'application/x-www-form-urlencoded',
    });
    expect([form.status, codeIn(form)]).toEqual([415, 'not json']);
    const bomb = gzipSync(Buffer.alloc(50_000_000));
    const packed = await fetch(new URL('api/events', hub.address), {
      method: 'POST',
      headers: {
        authorization: `Bearer ${lead.key}`,
        'content-type': 'application/json',
        'content-encoding': 'gzip',
      },
      body: bomb,
    });
    expect(packed.status).toBe(400);
  });

  test.each(["'; drop table firstdark.event; --", '\u202eAna', 'A\0na', ' ', 'x'.repeat(400)])(
    'a name such as %j is kept as a name or refused, and does nothing',
    async (person) => {
      const { lead, id } = await aProgramme(opened.database, hub.address);
      const invitation = await leadInvitation(opened.database, id);
      const asked = { invitation, person, device: randomUUID() };
      const answer = await new Guest(hub.address).post('api/join', asked);
      expect(answer.status).toBe(person.startsWith("'") ? 200 : 400);
      expect((await lead.send([lead.note()])).kept).toHaveLength(1);
    },
  );

  test.each([
    'api/events?limit=1;drop',
    'api/events?limit=1&limit=2',
    'api/devices/1%27%20or%20true/revoke',
    'api/events?after=%00',
  ])('%s is refused', async (path) => {
    const lead = await newLead();
    const answer = path.includes('revoke') ? await lead.post(path, {}) : await lead.get(path);
    expect([400, 409]).toContain(answer.status);
  });
});

describe('who is not let in', () => {
  test('a guessed, damaged or foreign key opens nothing, wherever it is written', async () => {
    const lead = await newLead();
    const guess = `fd1_${randomBytes(32).toString('base64url')}`;
    for (const authorization of [
      `Bearer ${guess}`,
      `Bearer ${lead.key}x`,
      `Bearer ${lead.key.slice(0, -1)}`,
      `bearer ${lead.key}, Bearer ${lead.key}`,
      `Basic ${Buffer.from(`lead:${lead.key}`).toString('base64')}`,
      `Bearer ' or '1'='1`,
      '',
    ]) {
      const answer = await new Guest(hub.address).get('api/me', { authorization });
      expect([answer.status, codeIn(answer)]).toEqual([401, 'key unknown']);
    }
    const inQuery = await new Guest(hub.address).get(`api/me?key=${lead.key}`);
    expect(inQuery.status).toBe(401);
  });

  test('headers that speak for somebody else change nothing', async () => {
    const lead = await newLead();
    const ben = await invited(lead, 'sitter', 'Ben');
    const headers = {
      'x-forwarded-for': '10.0.0.1',
      'x-forwarded-host': 'evil.example',
      'x-http-method-override': 'DELETE',
      'x-original-url': '/api/devices',
      forwarded: 'for=127.0.0.1;host=evil.example',
    };
    expect((await ben.get('api/devices', headers)).status).toBe(403);
    const made = await lead.post('api/invitations', { role: 'sitter' }, headers);
    expect(JSON.stringify(made.body)).not.toContain('evil.example');
  });

  test.each([
    [
      'two lengths',
      'POST /api/join HTTP/1.1\r\nHost: x\r\nContent-Length: 2\r\nContent-Length: 9\r\n\r\n{}',
    ],
    [
      'a length and pieces',
      'POST /api/join HTTP/1.1\r\nHost: x\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n',
    ],
    ['no host', 'GET /health HTTP/1.1\r\n\r\n'],
    ['a line end in a header', 'GET /health HTTP/1.1\r\nHost: x\r\nX: a\nb: c\r\r\n\r\n'],
    ['headers without end', `GET /health HTTP/1.1\r\nHost: x\r\nX: ${'y'.repeat(20_000)}\r\n\r\n`],
  ])('a request with %s is refused', async (_, text) => {
    expect(await raw(text)).toMatch(/^HTTP\/1\.1 4\d\d /);
  });

  test('no path leads out of the app or into the hub', async () => {
    for (const path of [
      '/../package.json',
      '/%2e%2e/package.json',
      '/..%2fpackage.json',
      '/.git/config',
    ]) {
      expect(await raw(`GET ${path} HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n`)).toMatch(
        / 40[0-4] /,
      );
    }
  });

  test('whoever tries keys or invitations one after another is made to wait', async () => {
    const strict = await aHub(opened.database, {
      limits: { ...usualLimits, joins: 5, unknownKeys: 5 },
    });
    const guest = new Guest(strict.address);
    const codes: string[] = [];
    for (let tries = 0; tries < 7; tries++) {
      const authorization = `Bearer fd1_${randomBytes(32).toString('base64url')}`;
      codes.push(codeIn(await guest.get('api/me', { authorization })));
    }
    expect(codes.slice(4)).toEqual(['key unknown', 'too many', 'too many']);
    const joins: number[] = [];
    for (let tries = 0; tries < 7; tries++) {
      const invitation = `fdi1_${randomBytes(24).toString('base64url')}`;
      const asked = { invitation, person: 'Mal', device: randomUUID() };
      const answer = await guest.post('api/join', asked);
      joins.push(answer.status);
      if (answer.status === 429)
        expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
    }
    expect(joins).toEqual([403, 403, 403, 403, 403, 429, 429]);
    // Those who have a key are served meanwhile, from the same address.
    const lead = await newLead();
    expect((await lead.at(strict.address).get('api/me')).status).toBe(200);
    await strict.close();
  });
});

describe('a flood', () => {
  test('one device and many strangers without measure: the others go on being served', async () => {
    const flooded = await aHub(opened.database, { limits: { ...usualLimits, perAddress: 1e6 } });
    const lead = (await newLead()).at(flooded.address);
    const greedy = await invited(lead, 'sitter', 'Gil');
    const honest = await invited(lead, 'sitter', 'Ana');
    let isOver = false;
    const answered = new Map<number, number>();
    const flood = Array.from({ length: 30 }, async (_, lane) => {
      while (!isOver) {
        const answer = await (lane % 2 === 0
          ? greedy.post('api/events', { events: Array.from({ length: 50 }, () => greedy.note()) })
          : new Guest(flooded.address).get('api/events', { authorization: 'Bearer fd1_no' }));
        answered.set(answer.status, (answered.get(answer.status) ?? 0) + 1);
      }
    });
    const notes = Array.from({ length: 10 }, () => honest.note('through the flood'));
    for (const note of notes) expect((await honest.send([note])).kept).toEqual([note.id]);
    isOver = true;
    await Promise.all(flood);
    expect(answered.get(429) ?? 0).toBeGreaterThan(0);
    expect([...answered.keys()].every((status) => [200, 401, 429].includes(status))).toBe(true);
    const { ids } = await honest.readAll();
    expect(ids).toEqual(expect.arrayContaining(idsOf(notes)));
    await flooded.close();
  });

  test('lines that are opened and say nothing do not keep the others out', async () => {
    const silent = Array.from({ length: 200 }, () => connect(hub.port, '127.0.0.1'));
    const slow = request({ port: hub.port, method: 'POST', path: '/api/join' });
    slow.on('error', () => undefined);
    slow.write('{');
    const lead = await newLead();
    expect((await lead.send([lead.note()])).kept).toHaveLength(1);
    slow.destroy();
    for (const socket of silent) socket.destroy();
  });
});

test('no secret, no note and no name of a person is in the log', async () => {
  const { id, lead } = await aProgramme(opened.database, hub.address);
  const invitation = await leadInvitation(opened.database, id);
  await new Guest(hub.address).post('api/join', {
    invitation,
    person: 'Secretive Person',
    device: randomUUID(),
  });
  await lead.send([lead.note('where the nest lies')]);
  await lead.get(`api/events?after=${(await lead.page()).cursor}`);
  await lead.post('api/events', '{"broken": "where the nest lies"');
  const text = log.text();
  expect(text).toContain('"path":"/api/events"');
  for (const secret of [
    invitation,
    lead.key,
    'fd1_',
    'fdi1_',
    'Secretive',
    'where the nest',
    'after=',
  ]) {
    expect(text).not.toContain(secret);
  }
});
