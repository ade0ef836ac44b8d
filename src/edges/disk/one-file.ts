import { mkdir, readFile, stat, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { codeOf } from './log-problem.ts';

export type FileRead =
  | { readonly ok: true; readonly bytes: Uint8Array }
  | { readonly ok: false; readonly message: string };

/** The bytes of one file. */
export async function readBytes(path: string): Promise<FileRead> {
  try {
    return { ok: true, bytes: await readFile(path) };
  } catch (error) {
    return { ok: false, message: whyNot(path, codeOf(error)) };
  }
}

export type FileWritten = { readonly ok: true } | { readonly ok: false; readonly message: string };

/** Writes one file, text as UTF-8; makes the folder it lies in when that is not there. */
export async function writeOneFile(
  path: string,
  content: string | Uint8Array,
): Promise<FileWritten> {
  try {
    await mkdir(dirname(path), { recursive: true });
    await writeFile(path, content);
    return { ok: true };
  } catch (error) {
    return { ok: false, message: whyNot(path, codeOf(error)) };
  }
}

/** Whether a folder lies at a path. */
export async function isFolder(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch {
    return false;
  }
}

function whyNot(path: string, code: string | null): string {
  switch (code) {
    case 'ENOENT':
      return `There is no file ${path}. Check the path.`;
    case 'EISDIR':
      return `${path} is a folder. Name a file.`;
    case 'ENOTDIR':
    case 'EEXIST':
      return `${path} cannot be, as something on its way is a file. Choose another place.`;
    case 'EACCES':
    case 'EPERM':
      return `${path} is closed to this account. Change its permissions, or choose another place.`;
    case 'ENOSPC':
      return `The disk is full, so ${path} is not complete. Free some space and write it again.`;
    default:
      return `${path} could not be used (${code ?? ''}). Choose another place and try again.`;
  }
}
