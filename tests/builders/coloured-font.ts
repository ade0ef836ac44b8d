/** What the font draws in a grid of so many units to the height of a letter. */
const EM = 1000;

const GREEN = [0, 255, 0] as const;
const BLUE = [0, 0, 255] as const;

/**
 * A font that paints these characters, and no others, as a green square whose left half is blue, as
 * the fonts of systems paint pictographs in colours of their own. Source: the OpenType specification,
 * version 1.9, tables COLR (version 0) and CPAL.
 */
export function colouredFont(characters: string): Uint8Array {
  const codes = [...new Set(characters)].map((one) => one.codePointAt(0) ?? 0);
  const glyphs = [new Uint8Array(), square(EM), square(EM / 2)];
  const starts = glyphs.map((_, at) => sizeOf(glyphs.slice(0, at)));
  const tables: Readonly<Record<string, Uint8Array>> = {
    COLR: fields('2 2 4 4 2 2 2 2 2 2 2 2', [0, 1, 14, 20, 2, 1, 0, 2, 1, 0, 2, 1]),
    CPAL: joined([
      fields('2 2 2 2 4 2', [0, 2, 1, 2, 14, 0]),
      ...[GREEN, BLUE].map(([red, green, blue]) => Uint8Array.of(blue, green, red, 255)),
    ]),
    'OS/2': joined([
      fields('2 2 2 2 2', [4, EM, 400, 5, 0]),
      new Uint8Array(52),
      fields('2 2 2', [0x40, 0xffff, 0xffff]),
      fields('2 2 2 2 2', [EM, 0, 0, EM, 0]),
      new Uint8Array(18),
    ]),
    cmap: joined([
      fields('2 2 2 2 4', [0, 1, 3, 10, 12]),
      fields('2 2 4 4 4', [12, 0, 16 + 12 * codes.length, 0, codes.length]),
      ...codes.sort((a, b) => a - b).map((code) => fields('4 4 4', [code, code, 1])),
    ]),
    glyf: joined(glyphs),
    head: joined([
      fields('4 4 4 4 2 2', [0x10000, 0x10000, 0, 0x5f0f3cf5, 0, EM]),
      new Uint8Array(16),
      fields('2 2 2 2 2 2 2 2 2', [0, 0, EM, EM, 0, 8, 2, 0, 0]),
    ]),
    hhea: joined([
      fields('4 2 2 2 2 2 2 2', [0x10000, EM, 0, 0, EM, 0, 0, EM]),
      new Uint8Array(16),
      fields('2', [glyphs.length]),
    ]),
    hmtx: joined(glyphs.map(() => fields('2 2', [EM, 0]))),
    loca: joined([...starts, sizeOf(glyphs)].map((at) => fields('2', [at / 2]))),
    maxp: joined([fields('4 2 2 2', [0x10000, glyphs.length, 4, 1]), new Uint8Array(22)]),
    name: fields('2 2 2', [0, 0, 6]),
    post: joined([fields('4', [0x30000]), new Uint8Array(28)]),
  };
  return fontOf(tables);
}

/** A rectangle from the corner, as high as a letter; of even length, as the short form of loca wants. */
function square(width: number): Uint8Array {
  return joined([
    fields('2 2 2 2 2 2 2', [1, 0, 0, width, EM, 3, 0]),
    Uint8Array.of(1, 1, 1, 1),
    fields('2 2 2 2', [0, 0, width, 0]),
    fields('2 2 2 2', [0, EM, 0, 0x10000 - EM]),
    new Uint8Array(2),
  ]);
}

function fontOf(tables: Readonly<Record<string, Uint8Array>>): Uint8Array {
  const names = Object.keys(tables).sort();
  const head = fields('4 2 2 2 2', [0x10000, names.length, 128, 3, 16 * names.length - 128]);
  const records: Uint8Array[] = [];
  const bodies: Uint8Array[] = [];
  for (const name of names) {
    const table = tables[name] ?? new Uint8Array();
    const at = 12 + 16 * names.length + sizeOf(bodies);
    const body = joined([table, new Uint8Array(-table.length & 3)]);
    records.push(new TextEncoder().encode(name), fields('4 4 4', [sumOf(body), at, table.length]));
    bodies.push(body);
  }
  return joined([head, ...records, ...bodies]);
}

function sumOf(body: Uint8Array): number {
  const view = new DataView(body.buffer);
  let sum = 0;
  for (let at = 0; at < body.length; at += 4) sum = (sum + view.getUint32(at)) >>> 0;
  return sum;
}

/** Whole numbers as OpenType writes them, the high byte first; `widths` are their bytes, 2 or 4 each. */
function fields(widths: string, values: readonly number[]): Uint8Array {
  const bytes = widths.split(' ').flatMap((width, at) => {
    const value = values[at] ?? 0;
    const low = [(value >>> 8) & 255, value & 255];
    return width === '2' ? low : [(value >>> 24) & 255, (value >>> 16) & 255, ...low];
  });
  return Uint8Array.from(bytes);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(sizeOf(parts));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

const sizeOf = (parts: readonly Uint8Array[]): number =>
  parts.reduce((sum, part) => sum + part.length, 0);
