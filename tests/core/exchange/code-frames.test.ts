import fc from 'fast-check';
import { deflateSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { FrameReader, codeFrames } from '../../../src/core/exchange/code-frames.ts';

const text = Array.from({ length: 400 }, (_, i) => `{"note":${(i * 7919) % 1000}}\n`).join('');

describe('a hand-over by codes', () => {
  test('comes out whole, in whatever order and however often its pieces are seen', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 3000 }), fc.nat(), (sent, luck) => {
        const frames = codeFrames(sent);
        const reader = new FrameReader();
        const order = [...frames, ...frames].map((frame, at) => ({
          frame,
          at: (at * 7 + luck) % 13,
        }));
        order.sort((a, b) => a.at - b.at);
        let last = reader.take('');
        for (const { frame } of order) last = reader.take(frame);
        expect(last).toEqual({ state: 'whole', text: sent });
      }),
      { seed: 11, numRuns: 60 },
    );
  });

  test('says how many pieces it has, and lets strange codes pass', () => {
    const [first = '', second = ''] = codeFrames(text);
    const reader = new FrameReader();
    expect(reader.take('https://elsewhere.example')).toEqual({ state: 'nothing yet' });
    expect(reader.take(first)).toMatchObject({ state: 'some', have: 1 });
    reader.take('https://elsewhere.example');
    expect(reader.take(second)).toMatchObject({ state: 'some', have: 2 });
  });

  test('starts anew when another hand-over comes into view', () => {
    const reader = new FrameReader();
    reader.take(codeFrames(text)[0] ?? '');
    expect(reader.take(codeFrames('another')[0] ?? '')).toEqual({
      state: 'whole',
      text: 'another',
    });
  });

  test('a piece that was read wrongly is noticed', () => {
    const [only = ''] = codeFrames('a short one');
    const wrong = `${only.slice(0, -2)}${only.endsWith('A') ? 'B' : 'A'}${only.slice(-1)}`;
    expect(new FrameReader().take(wrong)).toEqual({ state: 'damaged' });
  });

  test('one code fits a small code on a screen', () => {
    for (const frame of codeFrames(text.repeat(20))) expect(frame.length).toBeLessThan(330);
  });

  test('a few pieces that would swell to fill the memory are refused', () => {
    const bomb = deflateSync(new Uint8Array(70 * 2 ** 20), { level: 9 });
    const letters = Buffer.from(bomb).toString('base64url');
    let sum = 0x811c9dc5;
    for (const byte of bomb) sum = Math.imul(sum ^ byte, 0x01000193) >>> 0;
    const code = `FD1.${sum.toString(16).padStart(8, '0')}.0.1.${letters}`;
    expect(new FrameReader().take(code)).toEqual({ state: 'damaged' });
  });
});
