import { unzipSync } from 'fflate';

/** One file of an archive, as the archive's own list has it. */
export interface ZipEntry {
  readonly name: string;
  /** Bytes once it is unpacked, if the list is right. */
  readonly size: number;
}

/** Goes through an archive's list without unpacking. Throws when there is none. */
export function zipEntries(bytes: Uint8Array): readonly ZipEntry[] {
  const entries: ZipEntry[] = [];
  unzipSync(bytes, {
    filter: ({ name, originalSize }) => {
      entries.push({ name, size: originalSize });
      return false;
    },
  });
  return entries;
}

/**
 * Unpacks the wanted files, and holds each against the sum that was packed with it: a damaged archive
 * would give other words and numbers than were put in. Throws when one is not what it was.
 */
export function unzipWanted(
  bytes: Uint8Array,
  isWanted: (name: string) => boolean,
): Readonly<Record<string, Uint8Array>> {
  const sums = listedSums(bytes);
  const packed = new Map<string, number | undefined>();
  let at = 0;
  const files = unzipSync(bytes, {
    filter: ({ name }) => {
      const sum = sums[at++];
      if (!isWanted(name)) return false;
      packed.set(name, sum);
      return true;
    },
  });
  for (const [name, sum] of packed) {
    const content = files[name];
    if (content === undefined || crc32(content) !== sum) throw new Error(`${name} is damaged.`);
  }
  return files;
}

/** Places in an archive (ZIP, APPNOTE.TXT 6.3, sections 4.3.12 to 4.3.16; numbers little end first). */
const END = { mark: 0x06054b50, length: 22, count: 8, list: 16 } as const;
const END_64 = { mark: 0x06064b50, pointer: 0x07064b50, count: 32, list: 48 } as const;
const ENTRY = { length: 46, sum: 16, name: 28, extra: 30, comment: 32 } as const;

/** The CRC-32 of each file in the order of the archive's list. */
function listedSums(bytes: Uint8Array): readonly number[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - END.length;
  while (end >= 0 && view.getUint32(end, true) !== END.mark) end--;
  if (end < 0) throw new Error('The archive has no list of its files.');
  let [count, at] = [view.getUint16(end + END.count, true), view.getUint32(end + END.list, true)];
  if (end >= 20 && view.getUint32(end - 20, true) === END_64.pointer) {
    const wide = view.getUint32(end - 12, true);
    if (view.getUint32(wide, true) === END_64.mark) {
      count = view.getUint32(wide + END_64.count, true);
      at = view.getUint32(wide + END_64.list, true);
    }
  }
  const sums: number[] = [];
  for (; count > 0; count--) {
    sums.push(view.getUint32(at + ENTRY.sum, true));
    let length: number = ENTRY.length;
    for (const place of [ENTRY.name, ENTRY.extra, ENTRY.comment]) {
      length += view.getUint16(at + place, true);
    }
    at += length;
  }
  return sums;
}

/** CRC-32 as of ISO 3309, the polynomial turned round. */
function crc32(bytes: Uint8Array): number {
  let sum = -1;
  for (const byte of bytes) sum = (sum >>> 8) ^ (SUMS[(sum ^ byte) & 255] ?? 0);
  return ~sum >>> 0;
}

const SUMS = Int32Array.from({ length: 256 }, (_, byte) => {
  let sum = byte;
  for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  return sum;
});
