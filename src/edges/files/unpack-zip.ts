import { unzipSync } from 'fflate';
import { LIMITS, isSeasonFile, isWorkbook, megabytes } from './size-limits.ts';

export type Unpacked =
  | { readonly ok: true; readonly files: ReadonlyMap<string, Uint8Array> }
  | { readonly ok: false; readonly message: string };

const isRead = (name: string): boolean => isSeasonFile(name) || isWorkbook(name);

/** Stops the unpacking from within. */
class TooMuch extends Error {}

/**
 * The files in a .zip, by path; of those that are no table only the name. An archive that would
 * unpack to more than the limits is refused before anything of it is unpacked: small archives can
 * be made that fill all memory.
 */
export function unpackZip(name: string, bytes: Uint8Array): Unpacked {
  const files = new Map<string, Uint8Array>();
  try {
    plan(name, bytes);
    const unpacked = unzipSync(bytes, { filter: (entry) => isRead(entry.name) });
    for (const [path, content] of Object.entries(unpacked)) files.set(path, content);
    for (const path of otherNames(bytes)) files.set(path, new Uint8Array());
  } catch (error) {
    if (error instanceof TooMuch) return { ok: false, message: error.message };
    const message = `${name} could not be unpacked; it may be damaged, encrypted or no .zip at all. Unpack it yourself and give the files.`;
    return { ok: false, message };
  }
  return { ok: true, files };
}

/** Goes through the archive's own list without unpacking. Throws `TooMuch`. */
function plan(name: string, bytes: Uint8Array): void {
  let all_bytes = 0;
  let count = 0;
  unzipSync(bytes, {
    filter: (entry) => {
      count++;
      if (count > LIMITS.files) {
        throw new TooMuch(`${name} holds more than ${LIMITS.files} files. Give one season alone.`);
      }
      if (!isRead(entry.name)) return false;
      all_bytes += entry.originalSize;
      if (entry.originalSize > LIMITS.file_bytes || all_bytes > LIMITS.all_bytes) {
        const size = megabytes(all_bytes);
        throw new TooMuch(
          `${name} would unpack to ${size} or more, with ${entry.name}; at most ${megabytes(LIMITS.file_bytes)} a file and ${megabytes(LIMITS.all_bytes)} in all are read. Split the season.`,
        );
      }
      return false;
    },
  });
}

function otherNames(bytes: Uint8Array): readonly string[] {
  const names: string[] = [];
  unzipSync(bytes, {
    filter: ({ name }) => {
      if (!isRead(name) && !name.endsWith('/')) names.push(name);
      return false;
    },
  });
  return names;
}
