import { LIMITS, isSeasonFile, isWorkbook, megabytes } from './size-limits.ts';
import { type ZipEntry, unzipWanted, zipEntries } from './zip-entries.ts';

export type Unpacked =
  | { readonly ok: true; readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly ok: false; readonly message: string };

const isRead = (name: string): boolean => isSeasonFile(name) || isWorkbook(name);

/**
 * The files in a .zip, by path; of those that are no table only the name. An archive that would
 * unpack to more than the limits is refused before anything of it is unpacked: small archives can
 * be made that fill all memory.
 */
export function unpackZip(name: string, bytes: Uint8Array): Unpacked {
  const files = new Map<string, Uint8Array>();
  try {
    const entries = zipEntries(bytes);
    const tooMuch = whyTooMuch(name, entries);
    if (tooMuch !== null) return { ok: false, message: tooMuch };
    const unpacked = unzipWanted(bytes, isRead);
    for (const [path, content] of Object.entries(unpacked)) files.set(path, content);
    for (const { name: path } of entries) {
      if (!isRead(path) && !path.endsWith('/')) files.set(path, new Uint8Array());
    }
  } catch {
    const message = `${name} could not be unpacked; it may be damaged, encrypted or no .zip at all. Unpack it yourself and give the files.`;
    return { ok: false, message };
  }
  return { ok: true, files };
}

/** Why an archive is too large; null when it is not. */
function whyTooMuch(name: string, entries: readonly ZipEntry[]): string | null {
  if (entries.length > LIMITS.files) {
    return `${name} holds more than ${LIMITS.files} files. Give one season alone.`;
  }
  let all_bytes = 0;
  for (const entry of entries.filter((one) => isRead(one.name))) {
    all_bytes += entry.size;
    if (entry.size > LIMITS.file_bytes || all_bytes > LIMITS.all_bytes) {
      return `${name} would unpack to ${megabytes(all_bytes)} or more, with ${entry.name}; at most ${megabytes(LIMITS.file_bytes)} a file and ${megabytes(LIMITS.all_bytes)} in all are read. Split the season.`;
    }
  }
  return null;
}
