import { LIMITS, isSeasonFile, isTextTable, isWorkbook, megabytes } from './size-limits.ts';
import type { Unpacked } from './unpack-zip.ts';

/** A file with the path by which it was given: a folder's files keep the folder's name. */
export interface GivenFile {
  readonly path: string;
  readonly file: File;
}

/** The files that were picked in a file input; a picked folder gives its files with their paths. */
export function pickedFiles(list: Iterable<File>): readonly GivenFile[] {
  return [...list].map((file) => {
    const relative = file.webkitRelativePath as string | undefined;
    return { path: relative === undefined || relative === '' ? file.name : relative, file };
  });
}

/**
 * The files that were dropped on the page, those in dropped folders too. Call it in the handler of
 * the drop itself: a browser forgets what was dropped once the handler has returned.
 */
export async function droppedFiles(transfer: DataTransfer): Promise<readonly GivenFile[]> {
  const entries: FileSystemEntry[] = [];
  for (const item of transfer.items) {
    const entry = item.kind === 'file' ? item.webkitGetAsEntry() : null;
    if (entry !== null) entries.push(entry);
  }
  if (entries.length === 0) return pickedFiles(transfer.files);
  const found: GivenFile[] = [];
  for (const entry of entries) await walk(entry, found);
  return found;
}

async function walk(entry: FileSystemEntry, found: GivenFile[]): Promise<void> {
  if (found.length > LIMITS.files) return;
  const path = entry.fullPath.replace(/^\//, '');
  if (isFile(entry)) {
    const file = await new Promise<File>((resolve, reject) => entry.file(resolve, reject));
    found.push({ path, file });
  } else if (isFolder(entry)) {
    const reader = entry.createReader();
    // A reader gives a part at a time, and an empty one at the end.
    for (;;) {
      const part = await new Promise<FileSystemEntry[]>((resolve, reject) =>
        reader.readEntries(resolve, reject),
      );
      if (part.length === 0) break;
      for (const inner of part) await walk(inner, found);
    }
  }
}

const isFile = (entry: FileSystemEntry): entry is FileSystemFileEntry => entry.isFile;
const isFolder = (entry: FileSystemEntry): entry is FileSystemDirectoryEntry => entry.isDirectory;

/**
 * The bytes of files by path, archives unpacked, workbooks as a CSV a sheet, within the limits of `size-limits.ts`. Says in
 * words what stood in the way when one could not be read.
 */
export async function readGivenFiles(given: readonly GivenFile[]): Promise<Unpacked> {
  if (given.length === 0) {
    return { ok: false, message: 'No file was given. Choose nests.csv and the files beside it.' };
  }
  if (given.length > LIMITS.files) {
    const message = `These are more than ${LIMITS.files} files. Give the files of one season alone.`;
    return { ok: false, message };
  }
  const files = new Map<string, Uint8Array>();
  let all_bytes = 0;
  for (const { path, file } of given) {
    const isZip = /\.zip$/i.test(path);
    if (!isZip && !isSeasonFile(path) && !isTextTable(path) && !isWorkbook(path)) {
      files.set(path, new Uint8Array());
      continue;
    }
    all_bytes += file.size;
    if (file.size > LIMITS.file_bytes || all_bytes > LIMITS.all_bytes) {
      const message = `${path} has ${megabytes(file.size)}; at most ${megabytes(LIMITS.file_bytes)} a file and ${megabytes(LIMITS.all_bytes)} in all are read. Split the season.`;
      return { ok: false, message };
    }
    const bytes = await bytesOf(file);
    if (bytes === null) {
      const message = `${path} could not be read; it may have been moved or changed meanwhile. Give it once more.`;
      return { ok: false, message };
    }
    if (!isZip && !isWorkbook(path)) {
      files.set(path, bytes);
      continue;
    }
    const unpacked = isZip ? await unzipped(path, bytes) : await sheetsOf(path, bytes);
    if (!unpacked.ok) return unpacked;
    for (const [inner, content] of unpacked.files) files.set(inner, content);
  }
  return { ok: true, files };
}

async function unzipped(path: string, bytes: Uint8Array): Promise<Unpacked> {
  const { unpackZip } = await import('./unpack-zip.ts');
  const unpacked = unpackZip(path, bytes);
  if (!unpacked.ok) return unpacked;
  const files = new Map<string, Uint8Array>();
  for (const [inner, content] of unpacked.files) {
    const read = isWorkbook(inner) ? await sheetsOf(inner, content) : null;
    if (read?.ok === false) return read;
    for (const [sheet, text] of read?.files ?? [[inner, content]]) files.set(sheet, text);
  }
  return { ok: true, files };
}

/** The reader of workbooks is loaded only when there is one. */
async function sheetsOf(path: string, bytes: Uint8Array): Promise<Unpacked> {
  const { readWorkbook } = await import('./read-workbook.ts');
  return readWorkbook(path, bytes);
}

async function bytesOf(file: File): Promise<Uint8Array | null> {
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    return null;
  }
}
