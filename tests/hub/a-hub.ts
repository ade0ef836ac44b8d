import { Writable } from 'node:stream';
import { invite } from '../../src/hub/access/invitations.ts';
import { addProgramme } from '../../src/hub/access/programmes.ts';
import type { Database } from '../../src/hub/database/database.ts';
import { usualLimits } from '../../src/hub/http/limits.ts';
import { type HubOptions, type RunningHub, startHub } from '../../src/hub/start-hub.ts';
import { type HubDevice, joinBy } from './guest.ts';

/** Starts a hub on loopback that many tests can use without stepping on its limits. */
export function aHub(database: Database, options: Partial<HubOptions> = {}): Promise<RunningHub> {
  return startHub({
    database,
    host: '127.0.0.1',
    port: 0,
    now_ms: () => Date.now(),
    tls: null,
    behindProxy: false,
    address: null,
    appFolder: null,
    log: null,
    limits: { ...usualLimits, joins: 1e6, perAddress: 1e6, perKey: 1e6, unknownKeys: 1e6 },
    ...options,
  });
}

let count = 0;

/** A programme of its own on a hub, and its first lead, Lea. */
export async function aProgramme(
  database: Database,
  address: string,
): Promise<{ id: string; lead: HubDevice }> {
  count += 1;
  const added = await addProgramme(database, `Invented beach ${process.pid}-${count}`);
  if (!added.ok) throw new Error(added.no.message);
  const { id } = added.value;
  return { id, lead: await joinBy(address, await leadInvitation(database, id), 'Lea') };
}

/** An invitation for a lead, as whoever runs the hub makes it. */
export async function leadInvitation(
  database: Database,
  programme: string,
  expires_h = 1,
): Promise<string> {
  const made = await invite(database, programme, {
    role: 'lead',
    teams: [],
    person: null,
    expires_h,
    madeBy: null,
    missingTeams: 'refuse',
  });
  if (!made.ok) throw new Error(made.no.message);
  return made.value.invitation;
}

/** A log that is kept as text. */
export function logText(): { stream: Writable; text: () => string } {
  let text = '';
  const stream = new Writable({
    write(chunk: Buffer, _, done) {
      text += chunk.toString();
      done();
    },
  });
  return { stream, text: () => text };
}
