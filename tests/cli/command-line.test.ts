import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { firstdark, put, scratch, take } from '../builders/command-line.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => void (room = await scratch()));
afterAll(() => room.drop());
const at = (name: string): string => join(room.path, name);

const good = {
  'nests.csv': 'nest,lay_night,zone\nW-1,2026-05-20,=1+1\nW-2,,\n',
  'visits.csv': 'nest,time,surface\nW-1,2026-07-20 21:10,DIP\n',
};
const bad = { ...good, 'visits.csv': `${good['visits.csv']}W-9,2026-07-20 21:10,\n` };

/** Some text like this. */
const like = (pattern: RegExp): unknown => expect.stringMatching(pattern);

describe('the command line', () => {
  test('without a command, with an unknown one or a wrong option ends with 2 and says how it is used', async () => {
    expect(await firstdark()).toMatchObject({
      code: 2,
      out: '',
      err: like(/Usage: firstdark COMMAND/),
    });
    expect(await firstdark('dig')).toMatchObject({
      code: 2,
      err: like(/There is no command "dig"/),
    });
    expect(await firstdark('check')).toMatchObject({
      code: 2,
      err: like(/FOLDER is missing/),
    });
    for (const argv of [
      ['check', 'a', 'b'],
      ['check', 'a', '--colour'],
      ['check', 'a', '--zone', 'Mars/Base'],
      ['import', 'a'],
      ['export', 'a', '--format', 'pdf', '--out', 'b'],
      ['export', '--format', 'csv', '--out', 'b'],
      ['simulate', '--nests', 'many', '--seed', '1', '--out', 'b'],
      ['simulate', '--nests', '3', '--seed', '1'],
    ]) {
      expect(await firstdark(...argv)).toMatchObject({
        code: 2,
        out: '',
        err: like(/Usage: firstdark/),
      });
    }
  });

  test('tells every command when asked for help', async () => {
    const { code, out } = await firstdark('--help');
    expect(code).toBe(0);
    for (const name of ['check', 'import', 'export', 'simulate'])
      expect(out).toContain(`  ${name} `);
  });
});

describe('check', () => {
  test('ends with 0 when nothing is wrong', async () => {
    const folder = await put(at('good'), good);
    expect(await firstdark('check', folder)).toEqual({
      code: 0,
      out: 'nests 2, visits 1; nothing wrong.\n',
      err: '',
    });
  });

  test('ends with 1 and lists errors as file:row:column on standard error', async () => {
    const folder = await put(at('bad'), bad);
    const { code, out, err } = await firstdark('check', folder);
    expect(code).toBe(1);
    expect(err).toMatch(/^visits\.csv:3:nest: found "W-9", which is not in nests\.csv; expected /);
    expect(out).toBe('nests 2, visits 1 of 2; errors: 1, warnings: 0.\n');
  });

  test('prints one JSON document and nothing else with --json', async () => {
    const folder = await put(at('bad'), bad);
    const { code, out, err } = await firstdark('check', folder, '--json');
    expect([code, err]).toEqual([1, '']);
    expect(JSON.parse(out)).toMatchObject({
      ok: false,
      problems: [{ file: 'visits.csv', row: 3, column: 'nest', severity: 'error' }],
    });
  });

  test('says when there is no such folder', async () => {
    const { code, err } = await firstdark('check', at('nowhere'));
    expect(code).toBe(1);
    expect(err).toMatch(/^nowhere:0:-: There is no folder .*nowhere\. Check the path\./);
  });
});

describe('import and export', () => {
  test('a folder goes through a log and comes out as it was; once more adds nothing', async () => {
    const [folder, log] = [await put(at('in'), good), at('logs/season.jsonl')];
    const Added = z.object({ added: z.number() });
    const first = await firstdark('import', folder, '--log', log, '--json');
    expect(Added.parse(JSON.parse(first.out)).added).toBe(5);
    const second = await firstdark('import', folder, '--log', log, '--json');
    expect(Added.parse(JSON.parse(second.out)).added).toBe(0);
    const out = await firstdark('export', '--log', log, '--format', 'folder', '--out', at('out'));
    expect(out).toMatchObject({ code: 0, err: '' });
    expect(await take(at('out'))).toEqual(good);
  });

  test('good rows of a folder with errors are taken, and the exit code says so', async () => {
    const [folder, log] = [await put(at('bad'), bad), at('bad.jsonl')];
    expect(await firstdark('import', folder, '--log', log)).toMatchObject({
      code: 1,
      out: like(/visits: 1 new, 0 corrected, 0 as they stand/),
    });
  });

  test('csv for spreadsheets is guarded, and comes back as the same season', async () => {
    const folder = await put(at('in'), good);
    await firstdark('export', folder, '--format', 'csv', '--out', at('sheet'));
    expect((await take(at('sheet')))['nests.csv']).toBe(
      "nest,lay_night,zone\nW-1,2026-05-20,'=1+1\nW-2,,\n",
    );
    const log = at('sheet.jsonl');
    await firstdark('import', folder, '--log', log);
    const again = await firstdark('import', at('sheet'), '--log', log);
    expect(again.out).toMatch(/nests: 0 new, 0 corrected, 2 as they stand/);
  });

  test('says when the log cannot be written', async () => {
    const folder = await put(at('in'), good);
    const { code, err } = await firstdark('import', folder, '--log', at('in'));
    expect(code).toBe(1);
    expect(err).not.toBe('');
  });
});

describe('simulate', () => {
  test('writes a season that check finds nothing wrong with, said to be invented', async () => {
    const out = at('invented');
    const said = await firstdark('simulate', '--nests', '12', '--seed', '7', '--out', out);
    expect(said).toMatchObject({
      code: 0,
      err: '',
      out: like(/Nothing in it is real/),
    });
    const folder = await take(out);
    expect(folder['README.txt']).toMatch(/This season is invented/);
    expect(folder['truth.csv']?.split('\n')).toHaveLength(14);
    expect(await firstdark('check', out)).toMatchObject({ code: 0 });
  });

  test('gives the same folder for the same seed, another one for another', async () => {
    const invent = async (seed: string, weather: string): Promise<Record<string, string>> => {
      const out = at(`invented-${seed}-${weather}`);
      await firstdark(
        'simulate',
        '--nests',
        '5',
        '--seed',
        seed,
        '--weather',
        weather,
        '--out',
        out,
      );
      return take(out);
    };
    const once = await invent('1', 'stormy');
    expect(await invent('1', 'stormy')).toEqual(once);
    expect(await invent('2', 'stormy')).not.toEqual(once);
    expect(await invent('1', 'hot-dry')).not.toEqual(once);
  });
});

test('as a process of its own it sets the exit code and keeps standard output for the document', async () => {
  const folder = await put(at('bad'), bad);
  const run = promisify(execFile)(
    process.execPath,
    ['--import', 'tsx', 'src/cli/main.ts', 'check', folder, '--json'],
    { encoding: 'utf8' },
  );
  const ended = z.object({ code: z.number(), stdout: z.string(), stderr: z.string() });
  const { code, stdout, stderr } = ended.parse(await run.catch((error: unknown) => error));
  expect([code, stderr]).toEqual([1, '']);
  expect(JSON.parse(stdout)).toMatchObject({ ok: false });
}, 30_000);
