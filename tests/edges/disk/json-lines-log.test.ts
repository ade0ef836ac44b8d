import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync } from 'node:fs';
import * as files from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { type EventLog, type LoggedEvent, idOf } from '../../../src/core/log/event-log.ts';
import { openJsonLinesLog } from '../../../src/edges/disk/json-lines-log.ts';
import { Pen } from '../../arbitraries/written.ts';
import { eventLogSuite } from '../../suites/event-log-suite.ts';

let folder = '';
let path = '';
beforeEach(async () => {
  folder = await files.mkdtemp(join(tmpdir(), 'firstdark-log-'));
  path = join(folder, 'season', 'log.jsonl');
});
afterEach(() => files.rm(folder, { recursive: true, force: true }));

eventLogSuite('on disk', () =>
  Promise.resolve({ open: () => openJsonLinesLog(path), isShared: true }),
);

async function idsIn(log: EventLog): Promise<readonly string[]> {
  const read = await log.read();
  if (!read.ok) throw new Error(read.problem.message);
  return read.events.map(idOf);
}

const pen = new Pen();
const note = (): LoggedEvent =>
  pen.logged({ kind: 'visit-noted', nest: pen.nestId('N-1'), details: { surface: 'dip' } });
const lineOf = (logged: LoggedEvent): string =>
  `${JSON.stringify(logged.state === 'known' ? logged.event : logged.raw)}\n`;

async function fileHolds(text: string): Promise<void> {
  await files.mkdir(join(folder, 'season'), { recursive: true });
  await files.writeFile(path, text);
}

describe('a file that something happened to', () => {
  test('a last line torn by a crash is moved aside and said, and the rest goes on', async () => {
    const [first, second] = [note(), note()];
    await fileHolds(lineOf(first) + lineOf(second).slice(0, 40));
    const said: string[] = [];
    const log = await openJsonLinesLog(path, { say: (message) => said.push(message) });
    expect(await idsIn(log)).toEqual([idOf(first)]);
    expect(said).toEqual([
      expect.stringContaining('half written when its program was ended (40 bytes)'),
    ]);
    expect(await files.readFile(`${path}.torn`, 'utf8')).toBe(`${lineOf(second).slice(0, 40)}\n`);
    expect(await log.append([second])).toEqual({ ok: true, added: 1 });
    expect(await files.readFile(path, 'utf8')).toBe(lineOf(first) + lineOf(second));
  });

  test('a last line that lacks only its end is kept', async () => {
    const [first, second] = [note(), note()];
    await fileHolds(lineOf(first).trimEnd());
    const log = await openJsonLinesLog(path);
    expect(await log.append([second])).toEqual({ ok: true, added: 1 });
    expect(await files.readFile(path, 'utf8')).toBe(lineOf(first) + lineOf(second));
    expect(existsSync(`${path}.torn`)).toBe(false);
  });

  test('an append finds a torn line too', async () => {
    const [first, second] = [note(), note()];
    await fileHolds(`${lineOf(first)}{"id":`);
    const log = await openJsonLinesLog(path);
    expect(await log.append([second])).toEqual({ ok: true, added: 1 });
    expect(await files.readFile(path, 'utf8')).toBe(lineOf(first) + lineOf(second));
  });

  test('a damaged line in the middle stays where it is and is given as foreign', async () => {
    const [first, second] = [note(), note()];
    const text = `\uFEFF${lineOf(first)}{"id": "half\n\r\n${lineOf(second)}`;
    await fileHolds(text);
    const log = await openJsonLinesLog(path);
    const read = await log.read();
    expect(read.ok && read.events.map(({ state }) => state)).toEqual(['known', 'foreign', 'known']);
    expect(read.ok && read.events[1]).toMatchObject({ raw: '{"id": "half' });
    expect(await files.readFile(path, 'utf8')).toBe(text);
  });

  test('a line nested deeper than any event stays as it is, and stops neither reading nor writing', async () => {
    const [first, second] = [note(), note()];
    const nested = `${'['.repeat(5000)}${']'.repeat(5000)}`;
    const text = `${lineOf(first)}{"more":${nested}}\n{"id":"x","schema":99,"more":${nested}}\n`;
    await fileHolds(text);
    const log = await openJsonLinesLog(path);
    const read = await log.read();
    expect(read.ok && read.events.map(({ state }) => state)).toEqual([
      'known',
      'foreign',
      'foreign',
    ]);
    expect(await log.append([second])).toEqual({ ok: true, added: 1 });
    const other = await openJsonLinesLog(join(folder, 'copy.jsonl'));
    if (read.ok) expect(await other.append(read.events)).toEqual({ ok: true, added: 3 });
    expect(await idsIn(other)).toHaveLength(3);
  });

  test('a batch that was cut short by the end of its process is taken out as a whole', async () => {
    const [first, second, third] = [note(), note(), note()];
    const from = Buffer.byteLength(lineOf(first));
    const to = from + Buffer.byteLength(lineOf(second) + lineOf(third));
    await fileHolds(lineOf(first) + lineOf(second));
    const gone = spawn(process.execPath, ['-e', '']);
    await once(gone, 'exit');
    const left = { pid: gone.pid, host: hostname(), token: 'gone', from, to };
    await files.writeFile(`${path}.lock`, JSON.stringify(left));
    const log = await openJsonLinesLog(path);
    expect(await idsIn(log)).toEqual([idOf(first)]);
    expect(await files.readFile(`${path}.torn`, 'utf8')).toBe(`${lineOf(second)}\n`);
    expect(existsSync(`${path}.lock`)).toBe(false);
  });

  test('a file put in place of the one that was read is read from its start', async () => {
    const [first, second] = [note(), note()];
    await fileHolds(lineOf(first) + lineOf(second));
    const log = await openJsonLinesLog(path);
    expect(await idsIn(log)).toHaveLength(2);
    await files.writeFile(`${path}.new`, lineOf(second));
    await files.rename(`${path}.new`, path);
    expect(await idsIn(log)).toEqual([idOf(second)]);
  });

  test('one of fifty megabytes is read whole', async () => {
    const wide = pen.logged({
      kind: 'visit-noted',
      nest: pen.nestId('N-1'),
      details: { note: 'sand '.repeat(20_000) },
    });
    const ids = Array.from({ length: 500 }, () => note()).map(idOf);
    await fileHolds(ids.map((id) => lineOf(wide).replace(idOf(wide), id)).join(''));
    expect((await files.stat(path)).size).toBeGreaterThan(50_000_000);
    expect(await idsIn(await openJsonLinesLog(path))).toEqual(ids);
  });
});

describe('a disk that refuses', () => {
  test('with no room left half-way, nothing of the batch stays, and it says what to do', async () => {
    const first = note();
    await fileHolds(lineOf(first));
    const fullAfter =
      (bytes: number): typeof files.open =>
      async (...asked) => {
        const file = await files.open(...asked);
        if (asked[1] !== 'a') return file;
        return new Proxy(file, {
          get(target, name) {
            if (name === 'write') {
              return async (data: Buffer, offset: number) => {
                if (offset > 0) throw Object.assign(new Error('no space left'), { code: 'ENOSPC' });
                return target.write(data, 0, bytes);
              };
            }
            const value: unknown = Reflect.get(target, name);
            return typeof value === 'function' ? (value.bind(target) as unknown) : value;
          },
        });
      };
    const log = await openJsonLinesLog(path, { open: fullAfter(500) });
    const batch = [note(), note(), note()];
    const appended = await log.append(batch);
    expect(appended).toMatchObject({ ok: false, problem: { kind: 'full' } });
    expect(!appended.ok && appended.problem.message).toContain('Free some space and do it again');
    expect(await files.readFile(path, 'utf8')).toBe(lineOf(first));
    expect(await (await openJsonLinesLog(path)).append(batch)).toEqual({ ok: true, added: 3 });
  });

  test.skipIf(!existsSync('/dev/full'))('a device that is full says so itself', async () => {
    await files.mkdir(join(folder, 'season'));
    await files.symlink('/dev/full', path);
    const log = await openJsonLinesLog(path);
    expect(await log.append([note()])).toMatchObject({ ok: false, problem: { kind: 'full' } });
  });

  test('a folder in the place of the file, or a file in the place of a folder', async () => {
    await files.mkdir(path, { recursive: true });
    const inFolder = await openJsonLinesLog(path);
    expect(await inFolder.read()).toMatchObject({ ok: false, problem: { kind: 'failed' } });
    await files.writeFile(join(folder, 'plain'), '');
    const underFile = await openJsonLinesLog(join(folder, 'plain', 'log.jsonl'));
    const appended = await underFile.append([note()]);
    expect(!appended.ok && appended.problem.message).toContain('Name another file');
  });

  test('a lock of another computer is respected, and said how to take away', async () => {
    await fileHolds(lineOf(note()));
    const other = { pid: 1, host: 'a-laptop-elsewhere', token: 'theirs' };
    await files.writeFile(`${path}.lock`, JSON.stringify(other));
    const log = await openJsonLinesLog(path, { patience_ms: 30 });
    expect(await idsIn(log)).toHaveLength(1);
    const appended = await log.append([note()]);
    expect(appended).toMatchObject({ ok: false, problem: { kind: 'blocked' } });
    expect(!appended.ok && appended.problem.message).toContain(`delete ${path}.lock`);
  });
});

describe('other processes', () => {
  const children: ChildProcess[] = [];
  afterEach(() => {
    for (const child of children.splice(0)) child.kill('SIGKILL');
  });

  function appending(...args: string[]): { child: ChildProcess; lines: AsyncIterable<string> } {
    const script = join(import.meta.dirname, 'append-and-say.ts');
    const child = spawn(process.execPath, ['--import', 'tsx', script, path, ...args], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    children.push(child);
    return { child, lines: createInterface({ input: child.stdout }) };
  }

  test('killed at once after it said a note was saved: the note is there', async () => {
    const { child, lines } = appending();
    const said: string[] = [];
    for await (const line of lines) {
      said.push(line);
      if (said.length === 3) child.kill('SIGKILL');
    }
    const log = await openJsonLinesLog(path);
    const ids = await idsIn(log);
    expect(ids.slice(0, said.length)).toEqual(said);
    expect(
      await log.append([
        new Pen('Bo Invented', 9).logged({ kind: 'withdrawn', target: pen.visit('N-1').id }),
      ]),
    ).toEqual({ ok: true, added: 1 });
  });

  test('two that append at once lose nothing and mix no lines', async () => {
    const said = await Promise.all(
      ['1', '2'].map(async (seed) => {
        const ids: string[] = [];
        for await (const line of appending(seed, '25').lines) ids.push(line);
        return ids;
      }),
    );
    const ids = await idsIn(await openJsonLinesLog(path));
    expect(new Set(ids)).toEqual(new Set(said.flat()));
    expect(ids).toHaveLength(50);
  });
});
