import { describe, expect, test } from 'vitest';
import {
  type UpcastStep,
  checkSteps,
  lift,
  rawOf,
  readEvent,
} from '../../../src/core/log/upcast.ts';
import { Pen } from '../../arbitraries/written.ts';

const step = (from: number, lifted: (old: object) => object): UpcastStep => ({
  from,
  name: `step ${from}`,
  lift: (old) => ({ ...lifted(old) }),
});

describe('old shapes', () => {
  const steps = [
    step(1, (old) => ({ ...old, observer: 'not said' })),
    step(2, (old) => ({ ...old, tally: 2 })),
  ];

  test('are lifted by the steps from their own number on, in order', () => {
    expect(lift({ schema: 1 }, 1, steps)).toEqual({ schema: 3, observer: 'not said', tally: 2 });
    expect(lift({ schema: 2 }, 2, steps)).toEqual({ schema: 3, tally: 2 });
    expect(lift({ schema: 3 }, 3, steps)).toEqual({ schema: 3 });
  });

  test('cannot have a step that is misnumbered or missing', () => {
    expect(() => checkSteps(steps, 3)).not.toThrow();
    expect(() => checkSteps([...steps].reverse(), 3)).toThrow('"step 2" is numbered 2, wanted 1');
    expect(() => checkSteps(steps, 4)).toThrow('Shape 4 needs 3 steps, there are 2');
  });
});

describe('what lies in a log', () => {
  const event = new Pen().visit('N-1', { surface: 'dip' });

  test('is read when it is an event of today', () => {
    expect(readEvent(structuredClone(event))).toEqual({ state: 'known', event });
  });

  test('of a newer version is kept as it is, with the reason', () => {
    const raw = { ...event, schema: 2, glow: 'blue' };
    expect(readEvent(raw)).toMatchObject({ state: 'foreign', id: event.id, raw });
    const why = 'it was written by a newer version (shape 2, this one reads 1)';
    expect(readEvent(raw)).toMatchObject({ why });
  });

  test('with a value that cannot be says where and what was expected', () => {
    const raw = { ...event, at: '2026-07-20T21:10' };
    expect(readEvent(raw)).toMatchObject({
      state: 'foreign',
      why: 'at: a time with its offset, written like 2026-07-20T21:10-04:00',
    });
  });

  test.each([
    [null],
    [undefined],
    [17],
    ['text'],
    [[1, 2]],
    [{}],
    [{ id: 7, schema: 1 }],
    [{ id: '' }],
  ])('that is no event at all (%j) is kept under a name that follows from it', (raw) => {
    const read = readEvent(raw);
    expect(read).toMatchObject({ state: 'foreign', raw });
    expect(readEvent(raw)).toEqual(read);
  });

  test('beyond what this version reads is passed on', () => {
    const raw = { ...event, details: { ...event, mood: 'hopeful' } };
    const more = { ...event, mood: 'hopeful' };
    expect(rawOf(readEvent(more))).toEqual(more);
    expect(readEvent(more)).toMatchObject({ state: 'known', event });
    expect(rawOf(readEvent(raw))).toEqual(raw);
  });
});
