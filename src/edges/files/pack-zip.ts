import { strToU8, zipSync } from 'fflate';

/** A .zip of texts by path, as UTF-8, dated `now_ms`. */
export function packZip(files: ReadonlyMap<string, string>, now_ms: number): Uint8Array {
  const entries = [...files].map(([path, text]) => [path, strToU8(text)] as const);
  return zipSync(Object.fromEntries(entries), { mtime: now_ms, level: 6 });
}
