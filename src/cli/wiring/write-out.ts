import { join } from 'node:path';
import { isFolder, writeOneFile } from '../../edges/disk/one-file.ts';
import { writeFolder } from '../../edges/disk/season-folder.ts';
import { packZip } from '../../edges/files/pack-zip.ts';

/** What an export writes: one file, or several that belong together. */
export type ToWrite =
  /** `name` is the file's when PATH is a folder. */
  | { readonly kind: 'file'; readonly name: string; readonly text: string }
  /** `canZip`: one .zip of them when PATH ends so. */
  | {
      readonly kind: 'files';
      readonly files: ReadonlyMap<string, string>;
      readonly canZip: boolean;
    };

export type WrittenOut =
  | { readonly ok: true; /** Where it lies. */ readonly path: string }
  | { readonly ok: false; readonly message: string };

/** Writes an export to where PATH says; `now_ms` dates the files in a .zip. */
export async function writeOut(out: string, what: ToWrite, now_ms: number): Promise<WrittenOut> {
  if (what.kind === 'file') {
    const path = (await isFolder(out)) ? join(out, what.name) : out;
    return at(path, await writeOneFile(path, what.text));
  }
  if (what.canZip && out.toLowerCase().endsWith('.zip')) {
    return at(out, await writeOneFile(out, packZip(what.files, now_ms)));
  }
  return at(out, await writeFolder(out, what.files));
}

function at(
  path: string,
  written: { readonly ok: true } | { readonly ok: false; readonly message: string },
): WrittenOut {
  return written.ok ? { ok: true, path } : written;
}
