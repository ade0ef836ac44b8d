import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { migrate } from '../../src/hub/database/migrate.ts';
import { ServerDatabase } from '../../src/hub/database/server-database.ts';
import type { RunningHub } from '../../src/hub/start-hub.ts';
import { aHub, aProgramme } from './a-hub.ts';
import { type HubDevice, idsOf, invited } from './guest.ts';
import { PostgresServer } from './postgres.ts';

let primary: PostgresServer;
let standby: PostgresServer;
let databases: ServerDatabase[];
let hubs: RunningHub[];

beforeAll(async () => {
  primary = await PostgresServer.start([
    "synchronous_standby_names = 'one'",
    'wal_level = replica',
  ]);
  standby = await primary.standby('one', ["synchronous_standby_names = ''"]);
  const url = PostgresServer.url([standby, primary]);
  databases = [await ServerDatabase.open({ url }), await ServerDatabase.open({ url })];
  await Promise.all(databases.map(migrate));
  hubs = [await aHub(databases[0]!), await aHub(databases[1]!)];
}, 120_000);

afterAll(async () => {
  await Promise.all(hubs.map((hub) => hub.close()));
  await Promise.all(databases.map((database) => database.close()));
  await standby.drop();
  await primary.drop();
}, 60_000);

test('the primary is killed, its standby promoted: the hubs follow, and nothing acknowledged is lost', async () => {
  const { lead } = await aProgramme(databases[0]!, hubs[0]!.address);
  const names = ['Ana', 'Ben', 'Cem', 'Dan'];
  const joined = await Promise.all(names.map((name) => invited(lead, 'sitter', name)));
  // Two at one hub, two at the other.
  const devices = joined.map((device, at) => device.at(hubs[at % 2]!.address));
  const line = await lead.at(hubs[1]!.address).listen();

  let isOver = false;
  const acknowledged: string[] = [];
  const offered: string[] = [];
  const waited: string[] = [];
  const write = async (device: HubDevice): Promise<void> => {
    while (!isOver) {
      const notes = Array.from({ length: 20 }, () => device.note());
      offered.push(...idsOf(notes));
      for (;;) {
        const answer = await device.post('api/events', { events: notes });
        if (answer.status === 200) break;
        waited.push(JSON.stringify(answer.body));
        await pause(100);
      }
      acknowledged.push(...idsOf(notes));
    }
  };
  const writing = devices.map(write);
  const until = async (more: number): Promise<void> => {
    const enough = acknowledged.length + more;
    while (acknowledged.length < enough) await pause(10);
  };
  await until(400);
  await primary.kill();
  standby.promote();
  await until(400);
  isOver = true;
  await Promise.all(writing);

  const { ids } = await lead.readAll();
  expect(new Set(ids).size).toBe(ids.length);
  const held = new Set(ids);
  expect(acknowledged.filter((id) => !held.has(id))).toEqual([]);
  expect(held).toEqual(new Set(offered));
  for (const said of waited) expect(said).toMatch(/database away|busy/);

  // News goes on over the new primary.
  const before = line.heard();
  while (line.heard() === before) {
    await lead.send([lead.note()]);
    await pause(200);
  }
  line.stop();
}, 90_000);

test('a hub refuses a server that says that something is written before it is', async () => {
  await standby.sql("alter system set synchronous_commit = 'off'");
  await standby.sql('select pg_reload_conf()');
  await pause(300);
  await expect(ServerDatabase.open({ url: standby.url() })).rejects.toThrow(
    'synchronous_commit is off',
  );
});

test('a hub does not touch a record that a newer one has made', async () => {
  await databases[0]!.query("insert into firstdark.migration (number, name) values (999, 'later')");
  await expect(migrate(databases[0]!)).rejects.toThrow('made by a newer hub');
});
