import { zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import {
  droppedFiles,
  pickedFiles,
  readGivenFiles,
} from '../../../src/edges/files/dropped-files.ts';
import { packZip } from '../../../src/edges/files/pack-zip.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const file = (name: string, content: string | Uint8Array): File =>
  new File([typeof content === 'string' ? content : new Uint8Array(content)], name);
const texts = (files: ReadonlyMap<string, Uint8Array>): Record<string, string> =>
  Object.fromEntries([...files].map(([path, bytes]) => [path, new TextDecoder().decode(bytes)]));

async function given(...list: File[]) {
  const read = await readGivenFiles(pickedFiles(list));
  return read.ok ? texts(read.files) : read.message;
}

describe('files that were picked', () => {
  test('come out by name; of those that are no table only the name', async () => {
    expect(await given(file('nests.csv', 'nest\n'), file('photo.jpg', 'secret'))).toEqual({
      'nests.csv': 'nest\n',
      'photo.jpg': '',
    });
  });

  test('are asked for when there are none', async () => {
    expect(await given()).toMatch(/^No file was given\. Choose nests\.csv/);
  });

  test('are refused when too large, before they are read', async () => {
    const huge = file('nests.csv', '');
    Object.defineProperty(huge, 'size', { value: 300e6 });
    expect(await given(huge)).toMatch(/^nests\.csv has 300 MB; at most 200 MB/);
  });

  test('are asked for once more when they cannot be read', async () => {
    const moved = file('nests.csv', '');
    moved.arrayBuffer = () => Promise.reject(new Error('gone'));
    expect(await given(moved)).toMatch(/^nests\.csv could not be read/);
  });
});

describe('an archive', () => {
  test('gives the files in it, in folders too, and names what is no table', async () => {
    const zip = packZip(
      new Map([
        ['season/nests.csv', 'nest\nW-1\n'],
        ['season/README.txt', 'hello'],
      ]),
      Date.UTC(2026, 6, 20),
    );
    expect(await given(file('season.zip', zip))).toEqual({
      'season/nests.csv': 'nest\nW-1\n',
      'season/README.txt': '',
    });
  });

  test('that would fill the memory is refused before it is unpacked', async () => {
    const bomb = zipSync({ 'nests.csv': [new Uint8Array(201e6), { level: 1 }] });
    expect(bomb.length).toBeLessThan(3e6);
    expect(await given(file('small.zip', bomb))).toMatch(
      /^small\.zip would unpack to 201 MB or more, with nests\.csv/,
    );
  });

  test('with very many files is refused', async () => {
    const many = Object.fromEntries(
      Array.from({ length: 501 }, (_, index) => [`${index}.txt`, new Uint8Array()]),
    );
    expect(await given(file('many.zip', zipSync(many)))).toMatch(/holds more than 500 files/);
  });

  test('that is damaged, or none, is told', async () => {
    const zip = packZip(new Map([['nests.csv', 'nest\n']]), Date.UTC(2026, 6, 20));
    const message = /could not be unpacked; it may be damaged/;
    expect(await given(file('a.zip', zip.slice(0, 30)))).toMatch(message);
    expect(await given(file('b.zip', utf8('no archive')))).toMatch(message);
  });
});

describe('a drop on the page', () => {
  const fileEntry = (path: string, content: string) => ({
    isFile: true,
    isDirectory: false,
    fullPath: path,
    file: (take: (file: File) => void) => take(file(path.split('/').at(-1) ?? '', content)),
  });
  const folderEntry = (path: string, parts: unknown[][]) => ({
    isFile: false,
    isDirectory: true,
    fullPath: path,
    createReader: () => {
      const left = [...parts, []];
      return { readEntries: (take: (part: unknown[]) => void) => take(left.shift() ?? []) };
    },
  });
  const transfer = (...entries: unknown[]) =>
    ({
      items: entries.map((entry) => ({ kind: 'file', webkitGetAsEntry: () => entry })),
      files: [],
    }) as unknown as DataTransfer;

  test('gives the files of a dropped folder, however many parts the browser lists them in', async () => {
    const folder = folderEntry('/season', [
      [fileEntry('/season/nests.csv', 'nest\n')],
      [fileEntry('/season/visits.csv', 'nest,time\n')],
    ]);
    const found = await droppedFiles(transfer(folder, fileEntry('/extra.csv', 'x\n')));
    expect(found.map(({ path }) => path)).toEqual([
      'season/nests.csv',
      'season/visits.csv',
      'extra.csv',
    ]);
    const read = await readGivenFiles(found);
    expect(read.ok && texts(read.files)['season/nests.csv']).toBe('nest\n');
  });

  test('falls back on the plain list of files where entries are not told', async () => {
    const plain = { items: [], files: [file('nests.csv', 'nest\n')] } as unknown as DataTransfer;
    expect((await droppedFiles(plain)).map(({ path }) => path)).toEqual(['nests.csv']);
  });
});
