import { crc32 } from 'node:zlib';
import { unzlibSync, zlibSync } from 'fflate';

/** A picture as rows of pixels, `channels` bytes each (3 = RGB, 4 = RGBA). */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly channels: number;
  readonly bytes: Uint8Array;
}

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/**
 * Reads a PNG of eight bits a channel, RGB or RGBA, not interlaced, as browsers write screenshots.
 * Source: the PNG specification (W3C), sections 9.2 (filters) and 11.2 (chunks). Throws on others.
 */
export function readPng(png: Uint8Array): Picture {
  if (SIGNATURE.some((byte, index) => png[index] !== byte)) throw new Error('This is no PNG.');
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  const [depth, colour, interlace] = [png[24], png[25], png[28]];
  const channels = colour === 2 ? 3 : colour === 6 ? 4 : 0;
  if (depth !== 8 || channels === 0 || interlace !== 0) {
    throw new Error(`Cannot read a PNG of depth ${depth}, colour ${colour}.`);
  }
  const parts: Uint8Array[] = [];
  for (let at = 8; at < png.length;) {
    const length = view.getUint32(at);
    const kind = String.fromCharCode(...png.subarray(at + 4, at + 8));
    if (kind === 'IDAT') parts.push(png.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const packed = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    packed.set(part, at);
    at += part.length;
  }
  return { width, height, channels, bytes: unfilter(unzlibSync(packed), width, height, channels) };
}

/** A part of a picture; all of the part lies within it. */
export function cropped(
  { width, channels, bytes }: Picture,
  part: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): Picture {
  const row = part.width * channels;
  const out = new Uint8Array(row * part.height);
  for (let y = 0; y < part.height; y++) {
    const from = ((part.y + y) * width + part.x) * channels;
    out.set(bytes.subarray(from, from + row), y * row);
  }
  return { width: part.width, height: part.height, channels, bytes: out };
}

/** Writes a picture as a PNG that `readPng` reads. Source: as there, section 5 (chunks). */
export function writePng({ width, height, channels, bytes }: Picture): Uint8Array {
  const head = new DataView(new ArrayBuffer(13));
  head.setUint32(0, width);
  head.setUint32(4, height);
  head.setUint8(8, 8);
  head.setUint8(9, channels === 4 ? 6 : 2);
  // A row is its filter, none, and its pixels.
  const stride = width * channels;
  const rows = new Uint8Array(height * (stride + 1));
  for (let y = 0; y < height; y++) {
    rows.set(bytes.subarray(y * stride, (y + 1) * stride), y * (stride + 1) + 1);
  }
  return Buffer.concat([
    Uint8Array.from(SIGNATURE),
    chunk('IHDR', new Uint8Array(head.buffer)),
    chunk('IDAT', zlibSync(rows)),
    chunk('IEND', new Uint8Array()),
  ]);
}

function chunk(kind: string, content: Uint8Array): Uint8Array {
  const named = Buffer.concat([Buffer.from(kind, 'latin1'), content]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(content.length);
  sum.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, sum]);
}

function unfilter(raw: Uint8Array, width: number, height: number, channels: number): Uint8Array {
  const stride = width * channels;
  const out = new Uint8Array(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)];
    for (let x = 0; x < stride; x++) {
      const left = x >= channels ? (out[y * stride + x - channels] ?? 0) : 0;
      const up = y > 0 ? (out[(y - 1) * stride + x] ?? 0) : 0;
      const corner = x >= channels && y > 0 ? (out[(y - 1) * stride + x - channels] ?? 0) : 0;
      const told = raw[y * (stride + 1) + 1 + x] ?? 0;
      out[y * stride + x] = told + predicted(filter, left, up, corner);
    }
  }
  return out;
}

function predicted(filter: number | undefined, left: number, up: number, corner: number): number {
  switch (filter) {
    case 0:
      return 0;
    case 1:
      return left;
    case 2:
      return up;
    case 3:
      return (left + up) >> 1;
    case 4: {
      const [a, b, c] = [
        Math.abs(up - corner),
        Math.abs(left - corner),
        Math.abs(left + up - 2 * corner),
      ];
      return a <= b && a <= c ? left : b <= c ? up : corner;
    }
    default:
      throw new Error(`There is no filter ${filter}.`);
  }
}

/** The first pixels that give off green or blue light, as `x,y rgb(...)`; empty when there are none. */
export function notRed(picture: Picture, most = 5): string[] {
  const { width, channels, bytes } = picture;
  const found: string[] = [];
  for (let at = 0; at < bytes.length && found.length < most; at += channels) {
    const [red, green, blue] = [bytes[at], bytes[at + 1], bytes[at + 2]];
    if (green === 0 && blue === 0) continue;
    const pixel = at / channels;
    found.push(`${pixel % width},${Math.floor(pixel / width)} rgb(${red} ${green} ${blue})`);
  }
  return found;
}

/** Share of pixels that are lit at all. */
export function litShare({ channels, bytes }: Picture): number {
  let lit = 0;
  for (let at = 0; at < bytes.length; at += channels) if ((bytes[at] ?? 0) > 0) lit++;
  return lit / (bytes.length / channels);
}

/** Light that a picture gives off, as shares of a white screen's. */
export interface Luminance {
  readonly mean: number;
  readonly peak: number;
}

/**
 * Mean and highest relative luminance of the pixels. Source: WCAG 2.2, "relative luminance", which is
 * sRGB's (IEC 61966-2-1).
 */
export function luminance({ channels, bytes }: Picture): Luminance {
  let [sum, peak] = [0, 0];
  for (let at = 0; at < bytes.length; at += channels) {
    const y =
      0.2126 * linear(bytes[at]) + 0.7152 * linear(bytes[at + 1]) + 0.0722 * linear(bytes[at + 2]);
    sum += y;
    peak = Math.max(peak, y);
  }
  return { mean: sum / (bytes.length / channels), peak };
}

function linear(byte = 0): number {
  const share = byte / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}
