import type { Random } from '../../src/core/numerics/random.ts';

/** Words that programs trip over, as cells, keys or values. */
export const awkwardWords = [
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '=HYPERLINK("http://evil.example";"x")',
  '+1+1',
  '-',
  '@SUM(A1)',
  "'",
  "''=1",
  '""',
  '"',
  ',',
  ';',
  '\t',
  '\0',
  '\u202e',
  '\ufeff',
  '\u2028',
  '\ud800',
  '🐢'.repeat(40),
  'NaN',
  'Infinity',
  '-0',
  '1e999',
  '0x10',
  '1_000',
  '1,234.5',
  '9007199254740993',
  '12345678901234567890123',
  '٣٤',
  '1.797e308',
  '2026-02-30',
  '9999-12-31',
  '0000-00-00',
  '-271821-04-20',
  '24:00',
  '2026-03-08T02:30',
  '2026-07-20T21:00+99:00',
  'null',
  'true',
  '<script>alert(1)</script>',
  '{{7*7}}',
  '%00',
  '../../etc/passwd',
] as const;

const utf8 = new TextEncoder();
type Damage = (bytes: Uint8Array, luck: Random) => Uint8Array;

const place = (bytes: Uint8Array, luck: Random): number => luck.below(bytes.length + 1);

function spliced(bytes: Uint8Array, from: number, to: number, put: Uint8Array): Uint8Array {
  const whole = new Uint8Array(from + put.length + Math.max(0, bytes.length - to));
  whole.set(bytes.subarray(0, from));
  whole.set(put, from);
  whole.set(bytes.subarray(to), from + put.length);
  return whole;
}

const insert = (bytes: Uint8Array, luck: Random, put: Uint8Array | string): Uint8Array => {
  const at = place(bytes, luck);
  return spliced(bytes, at, at, typeof put === 'string' ? utf8.encode(put) : put);
};

/** Each as Latin-1, so that any bytes can be edited as text and put back unchanged. */
const asText = (bytes: Uint8Array): string => Buffer.from(bytes).toString('latin1');
const asBytes = (text: string): Uint8Array => new Uint8Array(Buffer.from(text, 'latin1'));

/** Damage that any file can take: on the way, on a disk, by a program or by somebody who means it. */
const toBytes: readonly Damage[] = [
  (bytes, luck) => {
    const flipped = bytes.slice();
    for (let count = 1 + luck.below(8); count > 0 && flipped.length > 0; count--) {
      const at = luck.below(flipped.length);
      flipped[at] = (flipped[at] ?? 0) ^ (1 << luck.below(8));
    }
    return flipped;
  },
  (bytes, luck) => bytes.slice(0, place(bytes, luck)),
  (bytes, luck) => bytes.slice(place(bytes, luck)),
  (bytes, luck) => {
    const from = place(bytes, luck);
    return spliced(bytes, from, from + 1 + luck.below(200), new Uint8Array());
  },
  (bytes, luck) => {
    const from = place(bytes, luck);
    return insert(bytes, luck, bytes.slice(from, from + 1 + luck.below(400)));
  },
  (bytes, luck) => insert(bytes, luck, new Uint8Array(1 + luck.below(20))),
  (bytes, luck) => {
    const noise = Uint8Array.from({ length: 1 + luck.below(64) }, () => luck.below(256));
    return insert(bytes, luck, noise);
  },
  (bytes, luck) => {
    const marks = [[0xef, 0xbb, 0xbf], [0xff, 0xfe], [0xfe, 0xff], [0x1a]];
    const mark = Uint8Array.from(luck.choice(marks));
    return luck.chance(0.7) ? spliced(bytes, 0, 0, mark) : insert(bytes, luck, mark);
  },
  () => new Uint8Array(),
];

/** Damage to what is text: by spreadsheets, by editors, by people. */
const toText: readonly Damage[] = [
  (bytes, luck) => insert(bytes, luck, luck.choice(awkwardWords)),
  (bytes, luck) => insert(bytes, luck, '"'),
  (bytes, luck) => {
    const marks = [...asText(bytes).matchAll(/"/g)].map(({ index }) => index);
    if (marks.length === 0) return insert(bytes, luck, '"half');
    const at = luck.choice(marks);
    return spliced(bytes, at, at + 1, new Uint8Array());
  },
  (bytes, luck) =>
    asBytes(asText(bytes).replaceAll('\n', luck.choice(['\r\n', '\r', '\n\r', '\n\n']))),
  (bytes, luck) => asBytes(asText(bytes).replace(/\n/g, () => luck.choice(['\n', '\r\n', '\r']))),
  (bytes, luck) => asBytes(asText(bytes).replaceAll(',', luck.choice([';', '\t', '|', ',,']))),
  (bytes, luck) => insert(bytes, luck, luck.choice(['x', '9', ',', '"a",', '[']).repeat(20_000)),
  (bytes, luck) => {
    const text = new TextDecoder().decode(bytes);
    const wide = new Uint8Array(
      Buffer.from(`${luck.chance(0.6) ? '\ufeff' : ''}${text}`, 'utf16le'),
    );
    return luck.chance(0.5)
      ? wide
      : new Uint8Array(
          Buffer.from(wide)
            .subarray(0, wide.length & ~1)
            .swap16(),
        );
  },
  (bytes) => new Uint8Array(Buffer.from(new TextDecoder().decode(bytes), 'latin1')),
  (bytes, luck) => {
    const lines = asText(bytes).split('\n');
    const [a, b] = [luck.below(lines.length), luck.below(lines.length)];
    [lines[a], lines[b]] = [lines[b] ?? '', lines[a] ?? ''];
    return asBytes(lines.join('\n'));
  },
  /** One cell, key or value in place of another. */
  (bytes, luck) => {
    const words = [...asText(bytes).matchAll(/[^,;\t\r\n":{}[\]]+/g)];
    if (words.length === 0) return bytes;
    const word = luck.choice(words);
    const put = luck.chance(0.6)
      ? utf8.encode(luck.choice(awkwardWords))
      : asBytes(luck.choice(words)[0]);
    return spliced(bytes, word.index, word.index + word[0].length, put);
  },
  /** Very deep JSON, anywhere or in place of a value. */
  (bytes, luck) => {
    const deep = luck.choice([50, 2_000, 100_000]);
    const [open, close] = luck.choice([
      ['[', ']'],
      ['{"a":', '}'],
    ] as const);
    const nested = `${open.repeat(deep)}1${close.repeat(deep)}`;
    const values = [...asText(bytes).matchAll(/(?<=":\s*)(?:"[^"]*"|\d+|null)/g)];
    if (values.length === 0 || luck.chance(0.3)) return insert(bytes, luck, nested);
    const value = luck.choice(values);
    const end = value.index + value[0].length;
    return spliced(bytes, value.index, end, utf8.encode(nested));
  },
];

/** A file with one to four damages, most often one. */
export function damaged(bytes: Uint8Array, luck: Random, isText: boolean): Uint8Array {
  let now = bytes;
  for (let times = 1 + (luck.chance(0.4) ? luck.below(4) : 0); times > 0; times--) {
    now = luck.choice(isText && luck.chance(0.75) ? toText : toBytes)(now, luck);
  }
  return now;
}
