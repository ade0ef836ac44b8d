import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { backupText, readBackup } from '../../src/app/state/backup.ts';
import { readRoute } from '../../src/app/state/route.ts';
import { FrameReader, codeFrames } from '../../src/core/exchange/code-frames.ts';
import { Mapping } from '../../src/core/exchange/mapping/mapping.ts';
import { fold } from '../../src/core/log/fold.ts';
import type { LoggedEvent } from '../../src/core/log/event-log.ts';
import { rawOf, readEvent } from '../../src/core/log/upcast.ts';
import type { Random } from '../../src/core/numerics/random.ts';
import { readKey } from '../../src/edges/disk/key-file.ts';
import { openJsonLinesLog } from '../../src/edges/disk/json-lines-log.ts';
import { ReplicaFile } from '../../src/edges/disk/replica-file.ts';
import { readInvitation } from '../../src/edges/hub/invitation-link.ts';
import { KeptMappings } from '../../src/edges/store/kept-mappings.ts';
import { SettingsShelf } from '../../src/edges/store/settings.ts';
import { damaged } from './damage.ts';
import { type Importer, type Outcome, promise } from './importer.ts';
import { readBeside, seasonText } from './season-importers.ts';
import { ScratchShelf } from '../builders/scratch-shelf.ts';

const utf8 = new TextEncoder();
const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

const events: readonly LoggedEvent[] = readBeside(
  'nests.csv',
  utf8.encode(seasonText('nests.csv')),
).events.map((event) => ({ state: 'known', event }));

/** Some lines of a log, with one of a newer version among them. */
export function someLines(luck: Random): string {
  const from = luck.below(events.length - 12);
  const newer = { id: '0198f0aa-0000-7000-8000-000000000001', schema: 99, kind: 'later', at: 'x' };
  return `${backupText(events.slice(from, from + 10))}${JSON.stringify(newer)}\n`;
}

/** Known events can be folded; all of them can be written again and say what they said. */
function judgeEvents(read: readonly LoggedEvent[]): Outcome {
  const known = read.flatMap((logged) => (logged.state === 'known' ? [logged.event] : []));
  fold(known, 'UTC');
  for (const logged of read) {
    const again = readEvent(JSON.parse(JSON.stringify(rawOf(logged)) ?? 'null'));
    promise(again.state === logged.state, () => `${logged.state} came back as ${again.state}`);
  }
  return known.length === 0 ? 'refused' : known.length < read.length ? 'in part' : 'taken';
}

const backups: Importer = {
  name: 'backup file',
  isText: true,
  make: (luck) => damaged(utf8.encode(someLines(luck)), luck, true),
  read: (bytes) => {
    const text = textOf(bytes);
    const { events: read, torn } = readBackup(text);
    const lines = text.split(/\r?\n/).filter((line) => line.trim() !== '').length;
    promise(
      read.length + torn.length === lines,
      () => `${lines} lines, ${read.length} read, ${torn.length} named`,
    );
    const outcome = judgeEvents(read);
    return outcome === 'taken' && torn.length > 0 ? 'in part' : outcome;
  },
};

let folder: Promise<string> | null = null;
const place = async (name: string): Promise<string> =>
  join(await (folder ??= mkdtemp(join(tmpdir(), 'firstdark-fuzz-'))), name);
const close = async (): Promise<void> => {
  if (folder !== null) await rm(await folder, { recursive: true, force: true });
  folder = null;
};

const logs: Importer = {
  name: 'log on disk (JSON Lines)',
  isText: true,
  make: (luck) => damaged(utf8.encode(someLines(luck)), luck, true),
  read: async (bytes) => {
    const path = await place('season.log');
    await writeFile(path, bytes);
    await rm(`${path}.torn`, { force: true });
    let said = 0;
    const log = await openJsonLinesLog(path, { say: () => void (said += 1) });
    const read = await log.read();
    if (!read.ok) {
      await log.close();
      promise(read.problem.message !== '', () => 'refused without a word');
      return 'refused';
    }
    const whole = (await readFile(path)).toString('latin1');
    const torn = (await readFile(`${path}.torn`).catch(() => Buffer.from(''))).toString('latin1');
    promise((torn === '') === (said === 0), () => `set aside: ${torn.length}, said: ${said}`);
    const kept = `${whole}${torn}`.replace(/\n$/, '');
    const given = Buffer.from(bytes).toString('latin1').replace(/\n$/, '');
    promise(kept === given, () => 'the file lost something when it was mended');
    const [one] = events;
    if (one !== undefined) {
      const added = await log.append([one]);
      promise(added.ok, () => 'nothing can be added to it');
    }
    await log.close();
    return judgeEvents(read.events);
  },
  close,
};

const keys: Importer = {
  name: 'key file',
  isText: true,
  make: (luck) => {
    const key = { hub: 'https://hub.example/', key: 'fdk1_abc', person: 'Ada', device: 'phone' };
    return damaged(utf8.encode(`${JSON.stringify(key)}\n`), luck, true);
  },
  read: async (bytes) => {
    const path = await place('key');
    await writeFile(path, bytes);
    const read = await readKey(path);
    if (read.state === 'text') return readInvitation(read.text) === null ? 'refused' : 'taken';
    promise(read.state === 'key' || read.message.includes(path), () => 'refused without a name');
    return read.state === 'key' ? 'taken' : 'refused';
  },
  close,
};

const replicas: Importer = {
  name: 'what was exchanged (beside a log)',
  isText: true,
  make: (luck) => {
    const kept = {
      cursor: 'c1',
      at_hub: ['a', 'b'],
      sent: ['b'],
      refused: [{ id: 'x', reason: 'rights', again: true }],
      brought_by: [['a', 'Ada']],
    };
    return damaged(utf8.encode(JSON.stringify(kept)), luck, true);
  },
  read: async (bytes) => {
    const path = await place('replica');
    await writeFile(path, bytes);
    const file = new ReplicaFile(path);
    const { atHub } = await file.read();
    await file.save();
    return atHub.size > 0 ? 'taken' : 'refused';
  },
  close,
};

const frames: Importer = {
  name: 'codes from another screen',
  isText: true,
  make: (luck) => {
    const sent = codeFrames(someLines(luck));
    const seen = Array.from({ length: sent.length * 2 }, () => luck.choice(sent));
    const text = [...sent, ...seen].join('\n');
    if (luck.chance(0.02)) return utf8.encode(codeFrames('0'.repeat(80e6)).join('\n'));
    return luck.chance(0.3) ? utf8.encode(text) : damaged(utf8.encode(text), luck, true);
  },
  read: (bytes) => {
    const reader = new FrameReader();
    let outcome: Outcome = 'refused';
    for (const code of textOf(bytes).split('\n')) {
      const read = reader.take(code);
      if (read.state === 'some') promise(read.have < read.of, () => 'some is all');
      if (read.state !== 'whole') continue;
      const { events: found, torn } = readBackup(read.text);
      promise(torn.length === 0, () => 'a whole text is torn');
      judgeEvents(found);
      outcome = 'taken';
      break;
    }
    return outcome;
  },
};

const routes: Importer = {
  name: 'address of the page',
  isText: true,
  make: (luck) => {
    const hash = luck.choice([
      '#/nest/W-1/record',
      '#/join/fdi1_abcdefghijklmnopqrstuvwxyz012345',
      '#/programme/devices',
      '#/note/W%201',
      '#/orientation/W-1/report/0198f0aa-0000-7000-8000-000000000001',
      'https://hub.example/#/join/fdi1_abcdefghijklmnopqrstuvwxyz012345',
    ]);
    return damaged(utf8.encode(hash), luck, true);
  },
  read: (bytes) => {
    const text = textOf(bytes);
    readInvitation(text);
    return readRoute(text).screen === 'tonight' ? 'refused' : 'taken';
  },
};

const settings: Importer = {
  name: 'settings on the device',
  isText: true,
  make: (luck) => {
    const kept = {
      device: 'd1',
      author: 'Ada',
      darkSwitch: 'always',
      season: 'own',
      lastNest: 'W-1',
      measures: 'feet',
    };
    return damaged(utf8.encode(JSON.stringify(kept)), luck, true);
  },
  read: (bytes) => {
    const read = new SettingsShelf(new ScratchShelf(textOf(bytes)), () => 'new').read();
    promise(['auto', 'always', 'never'].includes(read.darkSwitch), () => read.darkSwitch);
    promise(['metric', 'feet'].includes(read.measures), () => read.measures);
    return read.device === 'new' ? 'refused' : 'taken';
  },
};

const mappings: Importer = {
  name: 'how tables were matched, on the device',
  isText: true,
  make: (luck) => {
    const mapping: Mapping = {
      table: 'visits',
      columns: {
        'nest.': { to: 'nest', words: {} },
        'sound.': { to: 'sound', words: { raro: 'quiet' } },
      },
      smallHours: 'night',
    };
    return damaged(utf8.encode(JSON.stringify([['nest.|sound.', mapping]])), luck, true);
  },
  read: (bytes) => {
    const kept = new KeptMappings(new ScratchShelf(textOf(bytes)));
    const found = kept.recall('nest.|sound.');
    return found === null ? 'refused' : Mapping.safeParse(found).success ? 'taken' : 'in part';
  },
};

export const recordImporters: readonly Importer[] = [
  backups,
  logs,
  keys,
  replicas,
  frames,
  routes,
  settings,
  mappings,
];
