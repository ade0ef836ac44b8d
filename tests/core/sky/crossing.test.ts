import { describe, expect, test } from 'vitest';
import { crossingBetween } from '../../../src/core/sky/crossing.ts';

const rising = (at_ms: number) => at_ms / 1000 - 3;

describe('passing a level', () => {
  test('a light that climbs one degree a second from -3 is at the horizon after three seconds', () => {
    expect(crossingBetween(rising, 0, 0, 10_000)).toEqual({ kind: 'at', time_ms: 3000 });
  });

  test('a light that sinks is found as well as one that climbs', () => {
    const sinking = (at_ms: number) => 40 * Math.cos((at_ms / 43_200_000) * Math.PI);
    expect(crossingBetween(sinking, 20, 0, 43_200_000)).toEqual({
      kind: 'at',
      time_ms: 14_400_000,
    });
  });

  test('a curve that is flat at one end is still followed to its crossing', () => {
    const flat = (at_ms: number) => -((at_ms / 1000) ** 4);
    const found = crossingBetween(flat, -0.0016, 0, 100_000);
    expect(found.kind).toBe('at');
    if (found.kind === 'at') expect(Math.abs(flat(found.time_ms) + 0.0016)).toBeLessThan(1e-5);
  });

  test('a light that never comes down to the level is always up', () => {
    expect(crossingBetween(rising, -5, 0, 10_000)).toEqual({ kind: 'always up' });
  });

  test('a light that never reaches the level is always down', () => {
    expect(crossingBetween(rising, 50, 0, 10_000)).toEqual({ kind: 'always down' });
  });

  test('a level touched at the very first or last moment is found there', () => {
    expect(crossingBetween(rising, -3, 0, 10_000)).toEqual({ kind: 'at', time_ms: 0 });
    expect(crossingBetween((at_ms) => -rising(at_ms), -7, 0, 10_000)).toEqual({
      kind: 'at',
      time_ms: 10_000,
    });
  });
});
