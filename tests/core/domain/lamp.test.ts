import { expect, test } from 'vitest';
import { lampWords } from '../../../src/core/domain/code-words.ts';
import { type Lamp, lampText, readLamp } from '../../../src/core/domain/lamp.ts';

const lamps: readonly Lamp[] = [
  { kind: 'street lamp', colour: 'white', bearing_deg: 215, place: 'by the car park' },
  { kind: 'glow in the sky', colour: null, bearing_deg: null, place: null },
  { kind: 'window', colour: 'amber', bearing_deg: null, place: 'house 3/4' },
  { kind: 'other', colour: null, bearing_deg: 0, place: null },
];

test('a lamp comes back from its text as it was', () => {
  for (const lamp of lamps) expect(readLamp(lampText(lamp))).toEqual(lamp);
  expect(lampText(lamps[0] ?? lampless())).toBe('street lamp/white/215/by the car park');
  expect(lampText(lamps[1] ?? lampless())).toBe('glow in the sky');
});

test('a semicolon in a place does not make two lamps of one', () => {
  const lamp: Lamp = { kind: 'porch', colour: null, bearing_deg: null, place: 'left; then right' };
  expect(readLamp(lampText(lamp))?.place).toBe('left, then right');
});

test('a lamp is said by colour, kind and place', () => {
  expect(lamps.map(lampWords)).toEqual([
    'white street lamp, by the car park',
    'glow in the sky',
    'amber window, house 3/4',
    'other',
  ]);
});

test('what is no lamp, no colour or no bearing is refused', () => {
  for (const text of ['', 'moon', 'window/pink', 'window/white/400', 'window/white/north']) {
    expect(readLamp(text), text).toBeNull();
  }
});

function lampless(): never {
  throw new Error('there are lamps');
}
