import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { openDoor } from '../../hub/operator/operator-door.ts';
import { keepHubAddress } from '../../hub/operator/hub-address.ts';
import { leadsWanted } from '../../hub/programme-to-begin.ts';
import { type RunningHub, startHub } from '../../hub/start-hub.ts';
import { readArguments, wholeNumber } from './arguments.ts';
import { type CommandIo, WrongUsage } from './command.ts';
import { hubPlace, openHubDatabase, placeOptions } from './open-hub-database.ts';

const usualPort = 4180;
const DIST = join(import.meta.dirname, '..', '..', '..', 'dist');

const options = {
  ...placeOptions,
  port: { type: 'string' },
  host: { type: 'string' },
  address: { type: 'string' },
  programme: { type: 'string' },
  cert: { type: 'string' },
  key: { type: 'string' },
  'behind-proxy': { type: 'boolean' },
  'clear-text': { type: 'boolean' },
} as const;

/** Runs a hub until it is told to end (SIGTERM or SIGINT). */
export async function serveHub(args: readonly string[], io: CommandIo): Promise<number> {
  const { values } = readArguments(args, options, []);
  const place = hubPlace(values);
  const host = values.host ?? '127.0.0.1';
  const port = values.port === undefined ? usualPort : wholeNumber(values.port, 'port', 0);
  const address = values.address === undefined ? null : publicAddress(values.address);
  const { cert, key } = values;
  if ((cert === undefined) !== (key === undefined)) {
    throw new WrongUsage('--cert and --key belong together: give both, or neither.');
  }
  const isSafe = cert !== undefined || values['behind-proxy'] === true;
  if (!isSafe && !isLoopback(host) && values['clear-text'] !== true) {
    throw new WrongUsage(
      `On ${host} keys and notes would go over the network in the clear. Give --cert and --key, or --behind-proxy when a proxy in front speaks HTTPS, or --clear-text if you mean it.`,
    );
  }
  let tls: { cert: Buffer; key: Buffer } | null = null;
  try {
    if (cert !== undefined && key !== undefined) {
      tls = { cert: await readFile(cert), key: await readFile(key) };
    }
  } catch (error) {
    io.err(`The certificate cannot be read: ${error instanceof Error ? error.message : ''}\n`);
    return 1;
  }

  const opened = await openHubDatabase(place);
  if (!opened.ok) {
    io.err(`${opened.message}\n`);
    return 1;
  }
  const { database } = opened;
  let running: RunningHub;
  try {
    running = await startHub({
      database,
      host,
      port,
      now_ms: io.now_ms,
      tls,
      behindProxy: values['behind-proxy'] === true,
      address,
      appFolder: existsSync(join(DIST, 'index.html')) ? DIST : null,
      log: process.stderr,
    });
  } catch (error) {
    await opened.close();
    const reason = error instanceof Error ? error.message : String(error);
    io.err(`The hub cannot listen on ${host}, port ${port}: ${reason}\n`);
    return 1;
  }
  await keepHubAddress(database, running.address);
  const door =
    place.kind === 'folder'
      ? await openDoor(database, place.folder, () => running.writeDown())
      : null;
  const firstProgramme = values.programme ?? 'Our beach';
  const wanted = await leadsWanted(database, firstProgramme, running.address);
  io.out(
    [
      `The hub is at ${running.address}  (Ctrl+C ends it)\n`,
      place.kind === 'folder' ? `Its record lies in ${place.folder}\n` : '',
      ...wanted.map(
        ({ programme, expires_h, link }) =>
          `\nNobody leads "${programme}" yet. Open this on the lead's device; it holds once, for ${expires_h} h:\n${link}\n`,
      ),
    ].join(''),
  );

  await toldToEnd();
  await door?.close();
  await running.close();
  await opened.close();
  return 0;
}

function publicAddress(text: string): string {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (url?.protocol === 'https:' || url?.protocol === 'http:') return new URL('./', url).href;
  throw new WrongUsage(`--address "${text}": expected an address such as https://hub.example/.`);
}

function isLoopback(host: string): boolean {
  return host === 'localhost' || host === '::1' || /^127(?:\.\d{1,3}){3}$/.test(host);
}

function toldToEnd(): Promise<void> {
  return new Promise((end) => {
    for (const signal of ['SIGTERM', 'SIGINT'] as const) process.on(signal, () => end());
  });
}
