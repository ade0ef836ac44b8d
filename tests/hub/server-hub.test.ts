import { afterAll, beforeAll } from 'vitest';
import type { Database } from '../../src/hub/database/database.ts';
import { migrate } from '../../src/hub/database/migrate.ts';
import { ServerDatabase } from '../../src/hub/database/server-database.ts';
import type { RunningHub } from '../../src/hub/start-hub.ts';
import { aHub } from './a-hub.ts';
import { hubSuite } from './hub-suite.ts';
import { PostgresServer } from './postgres.ts';

let server: PostgresServer;
let database: Database;
let hub: RunningHub;

beforeAll(async () => {
  server = await PostgresServer.start();
  // As in the field: an account that owns its database and is no superuser.
  await server.sql('create role keeper login createrole');
  await server.sql('create database record owner keeper');
  database = await ServerDatabase.open({ url: server.url('record', 'keeper') });
  await Promise.all([migrate(database), migrate(database)]);
  hub = await aHub(database);
}, 180_000);

afterAll(async () => {
  await hub.close();
  await database.close();
  await server.drop();
});

hubSuite(() => ({ database, address: hub.address }));
