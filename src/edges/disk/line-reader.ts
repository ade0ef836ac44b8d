import type { FileHandle } from 'node:fs/promises';

const PIECE_BYTES = 1 << 20;
const NEWLINE = 10;

/** One line of a file without its end, and where in the file its end is, bytes. */
export interface Line {
  readonly text: string;
  readonly end: number;
}

/**
 * The whole lines of a file from one place to another, in bytes; a last line without an end is not
 * given. Reads a piece at a time, so that the size of the file does not matter.
 */
export async function* linesOf(file: FileHandle, from: number, to: number): AsyncGenerator<Line> {
  const piece = Buffer.alloc(PIECE_BYTES);
  let rest = Buffer.alloc(0);
  for (let at = from; at < to;) {
    const { bytesRead } = await file.read(piece, 0, Math.min(PIECE_BYTES, to - at), at);
    if (bytesRead === 0) return;
    const bytes = Buffer.concat([rest, piece.subarray(0, bytesRead)]);
    const start = at - rest.length;
    at += bytesRead;
    let begin = 0;
    for (let end = bytes.indexOf(NEWLINE); end !== -1; end = bytes.indexOf(NEWLINE, begin)) {
      yield { text: bytes.toString('utf8', begin, end), end: start + end + 1 };
      begin = end + 1;
    }
    rest = Buffer.from(bytes.subarray(begin));
  }
}
