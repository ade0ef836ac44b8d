import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { encodeQR } from 'qr';
import { listenToWav } from '../../src/core/acoustics/listen-to-wav.ts';
import { readWav } from '../../src/core/acoustics/wav.ts';
import { codeFrames } from '../../src/core/exchange/code-frames.ts';
import type { Random } from '../../src/core/numerics/random.ts';
import { readCode } from '../../src/edges/device/read-code.ts';
import { fixtureFolder } from '../builders/sounds.ts';
import { damaged } from './damage.ts';
import { type Importer, promise } from './importer.ts';

const names = readdirSync(fixtureFolder).filter((name) => name.endsWith('.wav'));

/** A second or so of a recording, as a file of its own, its head made anew or given another form. */
function shortWav(luck: Random): Uint8Array {
  const bytes = new Uint8Array(readFileSync(join(fixtureFolder, luck.choice(names))));
  const short = bytes.slice(0, 44 + 2 * luck.choice([100, 8_000, 44_100]));
  const view = new DataView(short.buffer);
  view.setUint32(4, short.length - 8, true);
  view.setUint32(40, short.length - 44, true);
  if (luck.chance(0.4)) {
    const field = luck.choice([20, 22, 32, 34]);
    view.setUint16(field, luck.choice([0, 1, 2, 3, 4, 6, 8, 16, 24, 32, 64, 0xfffe, 0xffff]), true);
  }
  if (luck.chance(0.2))
    view.setUint32(24, luck.choice([0, 1, 7_999, 11_025, 47_993, 384_000]), true);
  return short;
}

const recordings: Importer = {
  name: 'recording (.wav)',
  isText: false,
  make: (luck) => (luck.chance(0.5) ? damaged(shortWav(luck), luck, false) : shortWav(luck)),
  read: (bytes) => {
    const read = readWav(bytes);
    if (!read.ok) {
      promise(read.message !== '', () => 'refused without a word');
      return 'refused';
    }
    const reading = listenToWav(read.wav);
    const numbers = JSON.stringify(reading, (_, value: unknown) =>
      typeof value === 'number' && !Number.isFinite(value) ? 'not a number' : value,
    );
    promise(!numbers.includes('not a number'), () => numbers.slice(0, 300));
    return read.note === null ? 'taken' : 'in part';
  },
};

const [code = ''] = codeFrames('{"id":"1"}\n'.repeat(20));
const drawn = encodeQR(code, 'raw');

/** A picture of a code as a camera sees it, some of it wrong. */
function picture(luck: Random): Uint8Array {
  const size = drawn.length * 3;
  const data = new Uint8Array(size * size * 4).fill(255);
  for (let at = 0; at < size * size; at++) {
    const [x, y] = [Math.floor((at % size) / 3), Math.floor(at / size / 3)];
    const value = drawn[y]?.[x] === true ? 0 : 255;
    data.fill(value, at * 4, at * 4 + 3);
  }
  for (let count = luck.choice([0, 10, 300, 20_000]); count > 0; count--) {
    data[luck.below(data.length)] = luck.below(256);
  }
  return data;
}

const pictures: Importer = {
  name: 'picture of a code',
  isText: false,
  make: picture,
  read: (bytes) => {
    const size = drawn.length * 3;
    const data = new Uint8ClampedArray(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const read = readCode({ width: size, height: size, data });
    promise(read === null || read === code, () => `read as ${read}`);
    return read === null ? 'refused' : 'taken';
  },
};

export const signalImporters: readonly Importer[] = [recordings, pictures];
