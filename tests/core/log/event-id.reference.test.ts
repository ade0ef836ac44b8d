import { expect, test } from 'vitest';
import { EventId } from '../../../src/core/domain/event.ts';
import { eventIdOfRow, newEventId } from '../../../src/core/log/event-id.ts';

// Truth: RFC 9562 (May 2024), appendix A.6, the example of a UUIDv7: Tuesday, February 22, 2022
// 2:22:22.00 PM GMT-05:00, unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F.
const EXAMPLE = '017f22e2-79b0-7cc3-98c4-dc0c0c07398f';
const EXAMPLE_MS = Date.parse('2022-02-22T14:22:22.00-05:00');

test('the moment of an id is its first 48 bits, as in the example of RFC 9562', () => {
  expect(EXAMPLE_MS).toBe(0x017f22e279b0);
  for (const id of [
    newEventId(EXAMPLE_MS, new Uint8Array(16)),
    eventIdOfRow(EXAMPLE_MS, 'a row'),
  ]) {
    expect(id.slice(0, 13)).toBe(EXAMPLE.slice(0, 13));
  }
});

test('version and variant stand where RFC 9562 (5.7) puts them, whatever the random bytes', () => {
  for (const byte of [0x00, 0xff, 0xa5]) {
    const id = newEventId(EXAMPLE_MS, new Uint8Array(16).fill(byte));
    expect(id[14]).toBe('7');
    expect('89ab').toContain(id[19]);
  }
  expect(EventId.safeParse(EXAMPLE).success).toBe(true);
});

test('ids sort as their moments do', () => {
  const late = newEventId(EXAMPLE_MS + 1, new Uint8Array(16));
  const early = newEventId(EXAMPLE_MS, new Uint8Array(16).fill(0xff));
  expect(early < late).toBe(true);
});

test('the same row gives the same id, another row another one', () => {
  expect(eventIdOfRow(EXAMPLE_MS, 'a row')).toBe(eventIdOfRow(EXAMPLE_MS, 'a row'));
  expect(eventIdOfRow(EXAMPLE_MS, 'a row')).not.toBe(eventIdOfRow(EXAMPLE_MS, 'another'));
});
