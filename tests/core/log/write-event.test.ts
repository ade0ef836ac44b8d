import { describe, expect, test } from 'vitest';
import { NestId } from '../../../src/core/domain/nest.ts';
import {
  type Writing,
  correctEvent,
  noteVisit,
  tryWriteEvent,
  withdrawEvent,
  writeEvent,
} from '../../../src/core/log/write-event.ts';

const writing: Writing = {
  now_ms: Date.UTC(2026, 6, 21, 1, 10, 30),
  at_ms: Date.UTC(2026, 6, 21, 1, 5),
  random: new Uint8Array(16).fill(9),
  author: 'Ada Invented',
  device: 'device-1',
  zone: 'America/New_York',
};
const nest = NestId.parse('N-1');

describe('writing an event', () => {
  test('stamps when it happened and when it was written, on the programme’s clocks', () => {
    expect(noteVisit(nest, { surface: 'dip' }, writing).event).toMatchObject({
      kind: 'visit-noted',
      at: '2026-07-20T21:05-04:00',
      written: '2026-07-20T21:10:30-04:00',
      author: 'Ada Invented',
      device: 'device-1',
      schema: 1,
    });
  });

  test('takes it to have happened now when it is not said', () => {
    const { now_ms, random, author, device, zone } = writing;
    const { event } = noteVisit(nest, {}, { now_ms, random, author, device, zone });
    expect(event.at).toBe(event.written);
  });

  test('says which value of a form does not fit and what would', () => {
    const body = { kind: 'nest-registered', nest, details: { latitude: 91 } } as const;
    expect(tryWriteEvent(body, writing)).toMatchObject({ ok: false, field: 'details.latitude' });
    expect(() => writeEvent(body, writing)).toThrow('nest-registered: details.latitude');
  });

  test('keeps no key that text could not keep', () => {
    const visit = noteVisit(nest, {}, writing).event.id;
    const { event } = correctEvent(visit, { surface: undefined, sound: null }, writing, 'misheard');
    expect(event).toEqual(JSON.parse(JSON.stringify(event)));
    expect(event).toMatchObject({ changes: { sound: null }, reason: 'misheard' });
    expect(Object.hasOwn(withdrawEvent(visit, writing).event, 'reason')).toBe(false);
  });
});
