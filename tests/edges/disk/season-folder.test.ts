import { mkdir, truncate, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readFolder, writeFolder } from '../../../src/edges/disk/season-folder.ts';
import { put, scratch, take } from '../../builders/command-line.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => void (room = await scratch()));
afterAll(() => room.drop());

test('a folder gives the bytes of its tables, the names of other files, and nothing of folders in it', async () => {
  const folder = await put(join(room.path, 'season'), { 'nests.csv': 'nest\n', 'photo.jpg': 'x' });
  await mkdir(join(folder, 'older.csv'));
  const read = await readFolder(folder);
  expect(read.ok && [...read.files].map(([name, bytes]) => [name, bytes.length])).toEqual([
    ['nests.csv', 5],
    ['photo.jpg', 0],
  ]);
});

test('texts are written as UTF-8 into a folder that is made for them', async () => {
  const folder = join(room.path, 'a', 'b');
  expect(await writeFolder(folder, new Map([['nests.csv', 'caf\u00e9\n']]))).toEqual({ ok: true });
  expect(await take(folder)).toEqual({ 'nests.csv': 'caf\u00e9\n' });
});

test('a folder that is not there, or is a file, or holds a file beyond all size, is told in words', async () => {
  const file = join(room.path, 'file.csv');
  await writeFile(file, '');
  const message = async (path: string): Promise<string> => {
    const read = await readFolder(path);
    return read.ok ? 'read' : read.message;
  };
  expect(await message(join(room.path, 'nowhere'))).toMatch(
    /^There is no folder .* Check the path/,
  );
  expect(await message(file)).toMatch(/is not a folder\. Give the folder that holds nests\.csv/);
  // A sparse file: it claims a size without filling the disk.
  const huge = await put(join(room.path, 'huge'), { 'nests.csv': '' });
  await truncate(join(huge, 'nests.csv'), 301e6);
  expect(await message(huge)).toMatch(/has 301 MB; at most 300 are read/);
  const written = await writeFolder(join(file, 'inside'), new Map());
  expect(written).toMatchObject({ ok: false });
});
