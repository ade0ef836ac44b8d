import { randomUUID } from 'node:crypto';
import { hostname } from 'node:os';
import { exchange } from '../../core/replication/exchange.ts';
import { clockGapText } from '../../core/replication/clock-gap.ts';
import { openJsonLinesLog } from '../../edges/disk/json-lines-log.ts';
import { type HubKey, readKey, writeKey } from '../../edges/disk/key-file.ts';
import { ReplicaFile } from '../../edges/disk/replica-file.ts';
import { HttpHub } from '../../edges/hub/http-hub.ts';
import { readInvitation } from '../../edges/hub/invitation-link.ts';
import { needed, readArguments } from '../wiring/arguments.ts';
import { type Command, type CommandIo, WrongUsage } from '../wiring/command.ts';

/**
 * Exchanges a log with a hub until both hold the same. A key file that holds an invitation is used
 * to join first, and holds this device's key from then on.
 */
export const sync: Command = {
  name: 'sync',
  usage: 'sync --log FILE --hub URL --key FILE [--as NAME] [--json]',
  summary: 'exchanges a log with a hub until both hold the same',
  run: async (args, io) => {
    const options = {
      log: { type: 'string' },
      hub: { type: 'string' },
      key: { type: 'string' },
      as: { type: 'string' },
      json: { type: 'boolean' },
    } as const;
    const { values } = readArguments(args, options, []);
    const path = needed(values.log, 'log');
    const address = addressOf(needed(values.hub, 'hub'));
    const keyPath = needed(values.key, 'key');
    const opened = await keyOf(keyPath, address, values.as ?? null, io);
    if (typeof opened === 'string') {
      io.err(`${opened}\n`);
      return 1;
    }
    const clock: { gap_ms: number | null } = { gap_ms: null };
    const hub = new HttpHub({
      address,
      key: opened.key,
      now_ms: io.now_ms,
      clockGap: (gap_ms) => {
        clock.gap_ms = gap_ms;
      },
    });
    const log = await openJsonLinesLog(path, { say: (message) => io.err(`${message}\n`) });
    const shelf = new ReplicaFile(`${path}.hub`);
    const done = await exchange({ log, shelf, hub, identity: opened });
    await shelf.save();
    await log.close();
    const { problem, sent, received, waiting, refused } = done;
    if (clock.gap_ms !== null) {
      io.err(`The clock of this machine is ${clockGapText(clock.gap_ms)}.\n`);
    }
    if (problem !== null) io.err(`${problem.message}\n`);
    if (values.json === true) {
      const told = refused.map(({ id, reason }) => ({ id, reason }));
      io.out(`${JSON.stringify({ sent, received, waiting, refused: told }, null, 2)}\n`);
    } else {
      io.out(`${sent} sent, ${received} received, ${waiting} waiting.\n`);
      for (const { id, reason } of refused) io.err(`${id}: ${reason}\n`);
    }
    return problem === null ? 0 : 1;
  },
};

function addressOf(text: string): string {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url !== null && (url.protocol === 'https:' || url.protocol === 'http:')) {
    return new URL('./', url).href;
  }
  throw new WrongUsage(`--hub "${text}": expected an address such as https://turtles.example/.`);
}

/** The key in the file; joins first when the file holds an invitation. A text says what is wrong. */
async function keyOf(
  path: string,
  address: string,
  name: string | null,
  io: CommandIo,
): Promise<HubKey | string> {
  const found = await readKey(path);
  if (found.state === 'unreadable') return found.message;
  if (found.state === 'key') return found.key;
  const invitation = readInvitation(found.text);
  const hub = new HttpHub({
    address,
    key: invitation === null ? found.text : null,
    now_ms: io.now_ms,
  });
  if (invitation === null) {
    const me = await hub.me();
    if (!me.ok) return me.problem.message;
    const { person, device } = me.value;
    return { hub: address, key: found.text, person, device };
  }
  const device = randomUUID();
  const person = name ?? `${hostname()} ${device.slice(0, 4)}`;
  const joined = await hub.join(invitation, person, device, `terminal on ${hostname()}`);
  if (!joined.ok) return joined.problem.message;
  const key: HubKey = {
    hub: address,
    key: joined.value.key,
    person: joined.value.person,
    device: joined.value.device,
  };
  await writeKey(path, key);
  return key;
}
