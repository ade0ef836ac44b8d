import { Inflate, deflateSync, strFromU8, strToU8 } from 'fflate';

/** Letters in one code: a code of this size is read from the screen of a phone at arm's length. */
const lettersInCode = 300;

const MARK = 'FD1';

/**
 * A text as a row of short texts, each for one code on a screen: squeezed (RFC 1951), written as
 * base64url (RFC 4648), and cut. Each says which hand-over it belongs to and which piece it is:
 * `FD1.<sum>.<piece>.<pieces>.<letters>`.
 */
export function codeFrames(text: string): readonly string[] {
  const squeezed = deflateSync(strToU8(text), { level: 9 });
  const letters = toBase64Url(squeezed);
  const pieces = Math.max(1, Math.ceil(letters.length / lettersInCode));
  const sum = checksum(squeezed);
  return Array.from({ length: pieces }, (_, piece) => {
    const part = letters.slice(piece * lettersInCode, (piece + 1) * lettersInCode);
    return `${MARK}.${sum}.${piece}.${pieces}.${part}`;
  });
}

/** How far a hand-over has been read. */
export type FramesRead =
  | { readonly state: 'nothing yet' }
  | { readonly state: 'some'; readonly have: number; readonly of: number }
  | { readonly state: 'whole'; readonly text: string }
  /** Every piece is there, and together they are not what was sent. */
  | { readonly state: 'damaged' };

const FRAME = /^FD1\.([0-9a-f]{8})\.(\d{1,5})\.(\d{1,5})\.([A-Za-z0-9_-]*)$/;
/** More than this is no hand-over from a screen, but somebody's trick. */
const mostPieces = 20_000;
const mostBytes = 64 * 2 ** 20;

/** Puts the pieces of a hand-over together, in whatever order and however often they are seen. */
export class FrameReader {
  #sum = '';
  #of = 0;
  readonly #parts = new Map<number, string>();

  /** Takes in what a code says; one that belongs to another hand-over starts anew. */
  take(code: string): FramesRead {
    const [, sum = '', piece = '', pieces = '', letters = ''] = FRAME.exec(code) ?? [];
    const [at, of] = [Number(piece), Number(pieces)];
    if (sum === '' || of < 1 || of > mostPieces || at >= of) return this.#read();
    if (sum !== this.#sum || of !== this.#of) {
      this.#sum = sum;
      this.#of = of;
      this.#parts.clear();
    }
    this.#parts.set(at, letters);
    return this.#read();
  }

  #read(): FramesRead {
    if (this.#of === 0) return { state: 'nothing yet' };
    if (this.#parts.size < this.#of) return { state: 'some', have: this.#parts.size, of: this.#of };
    const letters = Array.from({ length: this.#of }, (_, at) => this.#parts.get(at) ?? '').join('');
    try {
      const squeezed = fromBase64Url(letters);
      if (checksum(squeezed) !== this.#sum) return { state: 'damaged' };
      return { state: 'whole', text: strFromU8(inflated(squeezed)) };
    } catch {
      return { state: 'damaged' };
    }
  }
}

/** Inflates a little at a time, so that a few pieces cannot fill the memory. Throws when damaged. */
function inflated(squeezed: Uint8Array): Uint8Array {
  const blocks: Uint8Array[] = [];
  let length = 0;
  const inflate = new Inflate((block) => {
    length += block.length;
    if (length > mostBytes) throw new RangeError('more than a hand-over can be');
    blocks.push(block);
  });
  const step = 4096;
  for (let at = 0; at < squeezed.length; at += step) {
    inflate.push(squeezed.subarray(at, at + step), at + step >= squeezed.length);
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const block of blocks) {
    whole.set(block, at);
    at += block.length;
  }
  return whole;
}

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_';

function toBase64Url(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const [a, b, c] = [bytes[at] ?? 0, bytes[at + 1] ?? 0, bytes[at + 2] ?? 0];
    const bits = (a << 16) | (b << 8) | c;
    const count = Math.min(4, bytes.length - at + 1);
    for (let letter = 0; letter < count; letter++) {
      text += LETTERS.charAt((bits >> (18 - 6 * letter)) & 63);
    }
  }
  return text;
}

function fromBase64Url(text: string): Uint8Array {
  const bytes = new Uint8Array(Math.floor((text.length * 3) / 4));
  let [bits, held, at] = [0, 0, 0];
  for (const letter of text) {
    bits = (bits << 6) | LETTERS.indexOf(letter);
    held += 6;
    if (held >= 8) {
      held -= 8;
      bytes[at++] = (bits >> held) & 255;
    }
  }
  return bytes;
}

/** FNV-1a, 32 bits, as eight hexadecimal digits (its two constants from memory). */
function checksum(bytes: Uint8Array): string {
  let sum = 0x811c9dc5;
  for (const byte of bytes) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
  return sum.toString(16).padStart(8, '0');
}
