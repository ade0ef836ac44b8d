import { afterAll, beforeAll } from 'vitest';
import type { RunningHub } from '../../src/hub/start-hub.ts';
import { aHub } from './a-hub.ts';
import { embeddedDatabase } from './embedded.ts';
import { hubSuite } from './hub-suite.ts';

let opened: Awaited<ReturnType<typeof embeddedDatabase>>;
let hub: RunningHub;

beforeAll(async () => {
  opened = await embeddedDatabase();
  hub = await aHub(opened.database);
}, 180_000);

afterAll(async () => {
  await hub.close();
  await opened.drop();
});

hubSuite(() => ({ database: opened.database, address: hub.address }));
