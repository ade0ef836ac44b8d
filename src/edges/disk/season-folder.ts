import { mkdir, readFile, readdir, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';

export type FolderRead =
  | { readonly ok: true; readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly ok: false; readonly message: string };

/** A file larger than this is no season's table; reading it would fill the memory. */
const LARGEST_FILE_MB = 300;

/** Only these are read in full; of other files the name is enough to say that they were ignored. */
const IS_SEASON_FILE = /\.(csv|json)$/i;

/** The files that lie in a folder itself (not in folders below it), by name. */
export async function readFolder(folder: string): Promise<FolderRead> {
  const files = new Map<string, Uint8Array>();
  try {
    for (const entry of await readdir(folder, { withFileTypes: true })) {
      const path = join(folder, entry.name);
      const info = await stat(path);
      if (!info.isFile()) continue;
      if (info.size > LARGEST_FILE_MB * 1e6) {
        const message = `${path} has ${Math.round(info.size / 1e6)} MB; at most ${LARGEST_FILE_MB} are read. Split the season.`;
        return { ok: false, message };
      }
      files.set(
        entry.name,
        IS_SEASON_FILE.test(entry.name) ? await readFile(path) : new Uint8Array(),
      );
    }
  } catch (error) {
    return { ok: false, message: whyNot(folder, error) };
  }
  return { ok: true, files };
}

export type FolderWritten =
  { readonly ok: true } | { readonly ok: false; readonly message: string };

/** Writes texts into a folder by name, as UTF-8; makes the folder when it is not there. */
export async function writeFolder(
  folder: string,
  files: ReadonlyMap<string, string>,
): Promise<FolderWritten> {
  try {
    await mkdir(folder, { recursive: true });
    for (const [name, text] of files) await writeFile(join(folder, name), text, 'utf8');
  } catch (error) {
    return { ok: false, message: whyNot(folder, error) };
  }
  return { ok: true };
}

function whyNot(folder: string, error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  switch (code) {
    case 'ENOENT':
      return `There is no folder ${folder}. Check the path.`;
    case 'ENOTDIR':
    case 'EEXIST':
      return `${folder} is not a folder. Give the folder that holds nests.csv.`;
    case 'EACCES':
    case 'EPERM':
      return `${folder} may not be opened by this account. Change its permissions, or copy it.`;
    case 'ENOSPC':
      return `The disk is full, so ${folder} is not complete. Free some space and write it again.`;
    default:
      return `${folder}: ${error instanceof Error ? error.message : 'could not be opened'}.`;
  }
}
