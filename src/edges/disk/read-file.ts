import { readFile } from 'node:fs/promises';

export type FileRead =
  | { readonly ok: true; readonly bytes: Uint8Array }
  /** `absent` when there is no such file. */
  | { readonly ok: false; readonly absent: boolean; readonly message: string };

/** The bytes of one file. */
export async function readBytes(path: string): Promise<FileRead> {
  try {
    return { ok: true, bytes: await readFile(path) };
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    return { ok: false, absent: code === 'ENOENT', message: whyNot(path, code) };
  }
}

function whyNot(path: string, code: string): string {
  switch (code) {
    case 'ENOENT':
      return `There is no file ${path}. Check the path.`;
    case 'EISDIR':
      return `${path} is a folder. Give the .csv file in it.`;
    case 'EACCES':
    case 'EPERM':
      return `${path} may not be read by this account. Change its permissions, or copy it.`;
    default:
      return `${path} could not be read (${code}). Copy it elsewhere and try again.`;
  }
}
