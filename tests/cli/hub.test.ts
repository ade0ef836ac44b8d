import { statSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openDoor } from '../../src/hub/operator/operator-door.ts';
import { keepHubAddress } from '../../src/hub/operator/hub-address.ts';
import { readDoor } from '../../src/hub/operator/door-file.ts';
import { EmbeddedDatabase } from '../../src/hub/database/embedded-database.ts';
import type { RunningHub } from '../../src/hub/start-hub.ts';
import { firstdark } from '../builders/command-line.ts';
import { aHub } from '../hub/a-hub.ts';
import { embeddedFolder } from '../hub/embedded.ts';
import { joinBy } from '../hub/guest.ts';

let folder: Awaited<ReturnType<typeof embeddedFolder>>;
let database: EmbeddedDatabase;
let hub: RunningHub;
let door: Awaited<ReturnType<typeof openDoor>>;

beforeAll(async () => {
  folder = await embeddedFolder();
  database = await EmbeddedDatabase.open(join(folder.path, 'database'));
  hub = await aHub(database);
  await keepHubAddress(database, hub.address);
  door = await openDoor(database, folder.path, () => hub.writeDown());
}, 180_000);

afterAll(async () => {
  await folder.drop();
});

const hubSays = (...args: readonly string[]) => firstdark('hub', ...args, '--data', folder.path);

test('whoever runs a hub opens a programme, invites, sees the devices and revokes one', async () => {
  expect((await hubSays('add-programme', 'Invented beach')).code).toBe(0);
  const invited = await hubSays('invite', '--role', 'sitter', '--team', 'Dunes', '--expires', '2h');
  expect(invited).toMatchObject({ code: 0, err: '' });
  const [, invitation = ''] =
    /^http:\/\/127\.0\.0\.1:\d+\/#\/join\/(\S+)\n$/.exec(invited.out) ?? [];
  const ana = await joinBy(hub.address, invitation, 'Ana');
  await ana.send([ana.note()]);

  const listed = await hubSays('devices', '--json');
  const [device] = JSON.parse(listed.out) as { id: string; person: string }[];
  expect(device).toMatchObject({ person: 'Ana', role: 'sitter', teams: ['Dunes'], events_sent: 1 });
  expect((await hubSays('devices')).out).toContain('Invented beach: Ana (sitter, Dunes), 1 sent');

  const revoked = await hubSays('revoke', device?.id ?? '', '--reason', 'lost');
  expect(revoked.out).toContain('Revoked: Ana (sitter; Dunes). It could read 1 events');
  expect((await ana.get('api/me')).status).toBe(401);
});

test('the invitation as JSON, for a person and a programme', async () => {
  await hubSays('add-programme', 'Second beach');
  const one = await hubSays('invite', '--role', 'lead');
  expect(one).toMatchObject({ code: 1, out: '' });
  expect(one.err).toContain('Say which one');
  const args = ['--role', 'lead', '--person', 'Lea', '--programme', 'second beach', '--json'];
  const invited = await hubSays('invite', ...args);
  expect(JSON.parse(invited.out)).toMatchObject({ programme: 'Second beach' });
  expect((await hubSays('programmes')).out).toContain('Second beach: 0 devices');
});

test.each([
  [['fly'], 'nothing that a hub does'],
  [['invite'], '--role is missing'],
  [['invite', '--role', 'king'], 'expected lead, sitter'],
  [['invite', '--role', 'lead', '--expires', 'soon'], 'such as 2h or 7d'],
  [['revoke'], 'ID is missing'],
  [['revoke', '17'], 'the id of a device'],
  [['--host', '0.0.0.0'], 'in the clear'],
  [['--cert', 'x'], 'belong together'],
  [['--database', 'mysql://x'], 'name two places'],
])('hub %j is wrong usage', async (args, told) => {
  const said = await hubSays(...args);
  expect([said.code, said.out]).toEqual([2, '']);
  expect(said.err).toContain(told);
});

test('the door of a running hub opens only for its own account', async () => {
  expect(statSync(join(folder.path, 'operator.json')).mode & 0o777).toBe(0o600);
  const found = await readDoor(folder.path);
  const answer = await fetch(`http://127.0.0.1:${found?.port}/`, {
    method: 'POST',
    headers: { authorization: 'Bearer guess', 'content-type': 'application/json' },
    body: JSON.stringify({ order: 'programmes' }),
  });
  expect(await answer.json()).toMatchObject({ ok: false, no: { code: 'no operator' } });
});

// The last one: it ends the hub.
test('when no hub runs on a folder, the commands open it themselves', async () => {
  await door.close();
  await hub.close();
  await database.close();
  expect((await hubSays('programmes')).out).toContain('Invented beach: 0 devices');
  const unknown = await hubSays('revoke', '00000000-0000-4000-8000-000000000000');
  expect(unknown).toMatchObject({ code: 1, out: '' });
  expect(unknown.err).toContain('There is no device');
});
