import { describe, expect, test } from 'vitest';
import { readWav } from '../../../src/core/acoustics/wav.ts';
import { writeWav } from '../../../src/core/acoustics/write-wav.ts';

const wave = [0, 0.5, -0.5, 0.25, -1, 0.9];

interface Shape {
  readonly code?: number;
  readonly bits: number;
  readonly channels?: number;
  readonly extensible?: boolean;
  readonly rate_hz?: number;
}

/** A WAV file written here by hand, so that reader and writer cannot share a mistake. */
function wav({
  code = 1,
  bits,
  channels = 1,
  extensible = false,
  rate_hz = 44_100,
}: Shape): Buffer {
  const size = bits / 8;
  const fmt = Buffer.alloc(extensible ? 40 : 16);
  fmt.writeUInt16LE(extensible ? 0xfffe : code, 0);
  fmt.writeUInt16LE(channels, 2);
  fmt.writeUInt32LE(rate_hz, 4);
  fmt.writeUInt32LE(rate_hz * channels * size, 8);
  fmt.writeUInt16LE(channels * size, 12);
  fmt.writeUInt16LE(bits, 14);
  if (extensible) fmt.writeUInt16LE(code, 24);
  const data = Buffer.alloc(wave.length * channels * size);
  wave.forEach((level, frame) => {
    for (let channel = 0; channel < channels; channel++) {
      const at = (frame * channels + channel) * size;
      if (code === 3) {
        if (bits === 32) data.writeFloatLE(level, at);
        else data.writeDoubleLE(level, at);
      } else if (bits === 8) data.writeUInt8(Math.min(255, 128 + Math.round(level * 128)), at);
      else {
        const top = 2 ** (bits - 1);
        data.writeIntLE(Math.min(top - 1, Math.round(level * top)), at, size);
      }
    }
  });
  const odd = Buffer.concat([chunk('LIST', Buffer.from('abc')), Buffer.alloc(1)]);
  const body = Buffer.concat([Buffer.from('WAVE'), odd, chunk('fmt ', fmt), chunk('data', data)]);
  return chunk('RIFF', body);
}

function chunk(tag: string, body: Buffer): Buffer {
  const head = Buffer.from(`${tag}0000`);
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body]);
}

describe('reading a WAV file', () => {
  const shapes: readonly Shape[] = [
    { bits: 8 },
    { bits: 16 },
    { bits: 24 },
    { bits: 32 },
    { code: 3, bits: 32 },
    { code: 3, bits: 64 },
    { bits: 16, channels: 2 },
    { bits: 24, channels: 2, extensible: true, rate_hz: 48_000 },
    { code: 3, bits: 32, channels: 6, extensible: true },
  ];
  test.each(shapes)('gives the samples of %o', (shape) => {
    const read = readWav(wav(shape));
    if (!read.ok) throw new Error(read.message);
    expect(read.wav).toMatchObject({
      rate_hz: shape.rate_hz ?? 44_100,
      channels: shape.channels ?? 1,
      bits: shape.bits,
      length: wave.length,
    });
    const step = shape.bits === 8 ? 1 / 128 : 1 / 2 ** 15;
    wave.forEach((level, n) => {
      expect(Math.abs(read.wav.read(n, n + 1)[0]! - level)).toBeLessThanOrEqual(step);
    });
  });

  test('what was written comes back', () => {
    const read = readWav(writeWav(wave, 16_000));
    expect(read.ok && [...read.wav.read(0, 99)].map((level) => Math.round(level * 100))).toEqual([
      0, 50, -50, 25, -100, 90,
    ]);
  });

  test('a file that was cut off gives what is there and says so; an unknown length is read to its end', () => {
    const whole = wav({ bits: 16 });
    const cut = readWav(whole.subarray(0, whole.length - 5));
    expect(cut).toMatchObject({ ok: true, wav: { length: 3 } });
    expect(cut.ok && cut.note).toMatch(/ends early: 7 of 12 bytes/);
    const streamed = Buffer.from(whole);
    streamed.writeUInt32LE(0xffffffff, whole.length - 16);
    expect(readWav(streamed)).toMatchObject({ ok: true, note: null, wav: { length: 6 } });
  });

  test('what is no such file is refused with what is wrong and what to do', () => {
    const because = (bytes: Buffer): string => {
      const read = readWav(bytes);
      return read.ok ? 'taken' : read.message;
    };
    expect(because(Buffer.alloc(0))).toMatch(/empty/);
    expect(because(Buffer.from('ID3 some music, surely'))).toMatch(/no WAV file.*"ID3 ".*Save/);
    expect(because(wav({ bits: 16 }).subarray(0, 20))).toMatch(/ends before its format/);
    expect(because(wav({ bits: 16 }).subarray(0, 48))).toMatch(/data chunk is missing/);
    expect(because(wav({ code: 85, bits: 16 }))).toMatch(/compressed \(format 85\)/);
    expect(because(wav({ bits: 16, rate_hz: 300 }))).toMatch(/rate is 300 a second; expected 8000/);
    expect(because(wav({ bits: 16, channels: 40 }))).toMatch(/40 channels/);
  });
});
