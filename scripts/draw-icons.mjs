// npm run icons: draws the app's mark into public/. A dark horizon, and half a disc coming up.
import { mkdirSync, writeFileSync } from 'node:fs';
import { deflateSync } from 'node:zlib';
import { ROOT } from './run.mjs';

/** Half-disc and horizon in a unit square, y downwards. Inside the circle that maskable icons keep. */
const MARK = { horizon: 0.6, thickness: 0.05, from: 0.16, to: 0.84, radius: 0.2, gap: 0.045 };

/** Whether a point of the unit square is ink. */
function isInk(x, y) {
  const { horizon, thickness, from, to, radius, gap } = MARK;
  if (y >= horizon && y <= horizon + thickness) return x >= from && x <= to;
  return y <= horizon - gap && Math.hypot(x - 0.5, y - (horizon - gap)) <= radius;
}

const CRC_TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c;
});

/** CRC-32 as PNG wants it (PNG specification, annex D). */
function crc32(bytes) {
  let c = 0xffffffff;
  for (const byte of bytes) c = CRC_TABLE[(c ^ byte) & 0xff] ^ (c >>> 8);
  return (c ^ 0xffffffff) >>> 0;
}

/** One chunk of a PNG file: length, name, data, checksum. */
function chunk(name, data) {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  body.copy(framed, 4);
  framed.writeUInt32BE(crc32(body), body.length + 4);
  return framed;
}

/** The mark as a PNG, pure red on black: green and blue are 0 in every pixel. */
function png(size_px) {
  const samples = 4;
  const row = 1 + size_px * 3;
  const raw = Buffer.alloc(row * size_px);
  for (let y = 0; y < size_px; y++) {
    for (let x = 0; x < size_px; x++) {
      let ink = 0;
      for (let s = 0; s < samples * samples; s++) {
        const across = x + ((s % samples) + 0.5) / samples;
        const down = y + (Math.floor(s / samples) + 0.5) / samples;
        if (isInk(across / size_px, down / size_px)) ink++;
      }
      raw[y * row + 1 + x * 3] = Math.round((255 * ink) / (samples * samples));
    }
  }
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size_px, 0);
  header.writeUInt32BE(size_px, 4);
  header[8] = 8; // bits a channel
  header[9] = 2; // red, green, blue
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const data = deflateSync(raw, { level: 9 });
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', data),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

/** The mark as an SVG, from the same measures. */
function svg() {
  const u = (value) => Number((value * 512).toFixed(1));
  const { horizon, thickness, from, to, radius, gap } = MARK;
  const base = u(horizon - gap);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">
  <rect width="512" height="512" fill="#000000"/>
  <path fill="#ff0000" d="M${u(0.5 - radius)} ${base}a${u(radius)} ${u(radius)} 0 0 1 ${u(2 * radius)} 0z"/>
  <rect x="${u(from)}" y="${u(horizon)}" width="${u(to - from)}" height="${u(thickness)}" fill="#ff0000"/>
</svg>
`;
}

const folder = `${ROOT}public/`;
mkdirSync(folder, { recursive: true });
writeFileSync(`${folder}icon.svg`, svg());
for (const size_px of [180, 192, 512]) writeFileSync(`${folder}icon-${size_px}.png`, png(size_px));
writeFileSync(`${folder}icon-maskable-512.png`, png(512));
