import { highestRate_hz, lowestRate_hz } from './resample.ts';

/** Sound as it lies in a file, mixed to one channel, -1 to 1. */
export interface Wav {
  readonly rate_hz: number;
  readonly channels: number;
  readonly bits: number;
  /** Frames, not bytes. */
  readonly length: number;
  /** The frames from one place up to another, for reading a long file piece by piece. */
  readonly read: (from: number, to: number) => Float32Array;
}

export type WavResult =
  | { readonly ok: true; readonly wav: Wav; readonly note: string | null }
  | { readonly ok: false; readonly message: string };

/** Codes of the format chunk (RIFF: Multimedia Programming Interface 1.0, and its extensible form). */
const pcm = 1;
const float = 3;
const extensible = 0xfffe;
/** A chunk of unknown length, as streaming programs write it. */
const unknownLengths = [0, 0xffffffff];
const mostChannels = 32;

/**
 * Reads a WAV file: PCM of 8, 16, 24 or 32 bits, floats of 32 or 64, plain and extensible, any number
 * of channels. A file that ends early gives what is there, with a note.
 */
export function readWav(bytes: Uint8Array): WavResult {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length === 0) return refuse('The file is empty.');
  if (bytes.length < 12 || tagAt(bytes, 0) !== 'RIFF' || tagAt(bytes, 8) !== 'WAVE') {
    return refuse(
      `It is no WAV file: it begins with ${seen(bytes)}, not with RIFF and WAVE. Save the recording as WAV (PCM) and try again.`,
    );
  }
  let format: Format | null = null;
  for (let at = 12; at + 8 <= bytes.length;) {
    const tag = tagAt(bytes, at);
    const length = view.getUint32(at + 4, true);
    const from = at + 8;
    if (tag === 'fmt ') {
      const read = readFormat(view, from, length);
      if (typeof read === 'string') return refuse(read);
      format = read;
    }
    if (tag === 'data') {
      if (format === null) return refuse('Its sound comes before its format; the file is damaged.');
      return withSound(view, format, from, length);
    }
    at = from + length + (length % 2);
  }
  return refuse(
    format === null
      ? 'It ends before its format is given; the file is damaged or was cut off.'
      : 'There is no sound in it: the data chunk is missing. The recording was probably cut off.',
  );
}

interface Format {
  readonly kind: 'pcm' | 'float';
  readonly channels: number;
  readonly rate_hz: number;
  readonly bits: number;
  /** Bytes of one sample of one channel. */
  readonly size: number;
}

function readFormat(view: DataView, at: number, length: number): Format | string {
  if (length < 16 || at + 16 > view.byteLength) return 'Its format chunk is cut off.';
  let code = view.getUint16(at, true);
  const channels = view.getUint16(at + 2, true);
  const rate_hz = view.getUint32(at + 4, true);
  const align = view.getUint16(at + 12, true);
  const bits = view.getUint16(at + 14, true);
  if (code === extensible) {
    if (length < 26 || at + 26 > view.byteLength) return 'Its extensible format is cut off.';
    code = view.getUint16(at + 24, true);
  }
  if (channels < 1 || channels > mostChannels) {
    return `It says that it has ${channels} channels; expected 1 to ${mostChannels}.`;
  }
  if (rate_hz < lowestRate_hz || rate_hz > highestRate_hz) {
    return `Its sampling rate is ${rate_hz} a second; expected ${lowestRate_hz} to ${highestRate_hz}.`;
  }
  const size = align / channels;
  const kind = code === pcm ? 'pcm' : code === float ? 'float' : null;
  if (kind === null) {
    return `Its sound is compressed (format ${code}); only PCM and floats are read. Save it as WAV (PCM, 16 bits).`;
  }
  const sizes = kind === 'pcm' ? [1, 2, 3, 4] : [4, 8];
  if (!sizes.includes(size) || bits > 8 * size || bits < 1) {
    return `It says ${bits} bits in ${align} bytes for ${channels} channels; expected 8, 16, 24 or 32 bits (floats 32 or 64).`;
  }
  return { kind, channels, rate_hz, bits, size };
}

function withSound(view: DataView, format: Format, from: number, said: number): WavResult {
  const there = view.byteLength - from;
  const isUnknown = unknownLengths.includes(said);
  const block = format.size * format.channels;
  const length = Math.floor((isUnknown ? there : Math.min(said, there)) / block);
  if (length === 0) return refuse('There is no sound in it: its data chunk is empty.');
  const isCut = !isUnknown && said > there;
  const note = isCut
    ? `The file ends early: ${there} of ${said} bytes of sound are there. What is there was used.`
    : null;
  const { channels, rate_hz, bits, size } = format;
  const sample = sampleReader(view, format);
  const read = (start: number, end: number): Float32Array => {
    const to = Math.min(end, length);
    const out = new Float32Array(Math.max(0, to - start));
    for (let frame = start; frame < to; frame++) {
      let sum = 0;
      for (let channel = 0; channel < channels; channel++) {
        sum += sample(from + frame * block + channel * size);
      }
      out[frame - start] = sum / channels;
    }
    return out;
  };
  return { ok: true, wav: { rate_hz, channels, bits, length, read }, note };
}

function sampleReader(view: DataView, { kind, size }: Format): (at: number) => number {
  if (kind === 'float') {
    return size === 4 ? (at) => view.getFloat32(at, true) : (at) => view.getFloat64(at, true);
  }
  switch (size) {
    case 1:
      return (at) => (view.getUint8(at) - 128) / 128;
    case 2:
      return (at) => view.getInt16(at, true) / 2 ** 15;
    case 3:
      return (at) => (view.getUint16(at, true) + view.getInt8(at + 2) * 2 ** 16) / 2 ** 23;
    default:
      return (at) => view.getInt32(at, true) / 2 ** 31;
  }
}

const refuse = (message: string): WavResult => ({ ok: false, message });

const tagAt = (bytes: Uint8Array, at: number): string =>
  String.fromCharCode(...bytes.subarray(at, at + 4));

function seen(bytes: Uint8Array): string {
  const text = tagAt(bytes, 0).replace(/[^\x20-\x7e]/g, '.');
  return `"${text}"`;
}
