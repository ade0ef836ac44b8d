import { mkdir, mkdtemp, readFile, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { main } from '../../src/cli/main.ts';
import { NOON_MS } from './season-files.ts';

/** What a command said and how it ended. */
export interface Said {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs one command in this process, at noon of 20 July 2026 on the clocks of New York. */
export async function firstdark(...argv: readonly string[]): Promise<Said> {
  let out = '';
  let err = '';
  const code = await main(argv, {
    out: (text) => void (out += text),
    err: (text) => void (err += text),
    now_ms: () => NOON_MS,
    zone: 'America/New_York',
  });
  return { code, out, err };
}

/** A folder of its own for a test; `drop` removes it. */
export async function scratch(): Promise<{ path: string; drop: () => Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), 'firstdark-'));
  return { path, drop: () => rm(path, { recursive: true, force: true }) };
}

/** Writes texts by file name into a folder, made if need be; gives its path. */
export async function put(
  folder: string,
  contents: Readonly<Record<string, string>>,
): Promise<string> {
  await mkdir(folder, { recursive: true });
  for (const [name, text] of Object.entries(contents)) await writeFile(join(folder, name), text);
  return folder;
}

/** The texts of a folder's files by name. */
export async function take(folder: string): Promise<Record<string, string>> {
  const names = (await readdir(folder)).sort();
  const texts = await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8')));
  return Object.fromEntries(names.map((name, index) => [name, texts[index] ?? '']));
}
