import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import * as z from 'zod';

const root = resolve(import.meta.dirname, '../..');
const read = (name: string) => readFileSync(join(root, name), 'utf8');

const { scripts } = z
  .object({ scripts: z.record(z.string(), z.string()) })
  .parse(JSON.parse(read('package.json')));

const DOCUMENTS = ['README.md', 'DEVELOPERS.md'];

/** What stands first in a path of ours, so that `/usr/bin/chromium` is not taken for one. */
const OURS =
  /^(?:\.?[\w-]+\.(?:md|mjs|ts|json|html)|(?:src|tests|bench|scripts|public|docs)(?:\/.*)?)$/;

/** A path is quoted in backticks or is the target of a link; NAME stands for any name. */
function pathsIn(text: string): string[] {
  const quoted = [...text.matchAll(/`([^`\s]+)`/g)].map(([, path]) => path ?? '');
  const linked = [...text.matchAll(/\]\(([^)\s]+)\)/g)].map(([, path]) => path ?? '');
  return [...new Set([...quoted.filter((path) => OURS.test(path)), ...linked])].filter(
    (path) => !/^https?:/.test(path) && !path.includes('NAME') && !isSuffix(path),
  );
}

/** `.test.ts` and the like say what a name ends in. */
function isSuffix(path: string): boolean {
  return /^\.(?:[a-z]+\.)?(?:test|e2e)/.test(path) || path === 'kebab-case.ts';
}

const commandsIn = (text: string) =>
  [...text.matchAll(/npm (?:run (?:-s )?([\w:-]+)|(start|test)\b)/g)].map(
    ([, run, short]) => run ?? short ?? '',
  );

test.each(DOCUMENTS)('every command that %s quotes exists', (name) => {
  const commands = commandsIn(read(name));
  expect(commands).toContain('start');
  expect(commands.filter((command) => scripts[command] === undefined)).toEqual([]);
});

test.each(DOCUMENTS)('every path that %s quotes exists', (name) => {
  const paths = pathsIn(read(name));
  expect(paths.length).toBeGreaterThan(2);
  expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
});

test('DEVELOPERS.md says what each command is for', () => {
  const told = new Set(commandsIn(read('DEVELOPERS.md')));
  expect(Object.keys(scripts).filter((name) => !told.has(name))).toEqual([]);
});

test('DEVELOPERS.md explains no word twice', () => {
  const words = read('DEVELOPERS.md').split('## Words')[1] ?? '';
  const explained = [...words.matchAll(/^\| ([a-z ]+) \|/gm)].map(([, word]) => word);
  expect(explained.length).toBeGreaterThan(30);
  expect(new Set(explained).size).toBe(explained.length);
});
