import { describe, expect, test } from 'vitest';
import { NestId } from '../../../src/core/domain/nest.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { correctEvent, noteVisit, writeEvent } from '../../../src/core/log/write-event.ts';
import { writtenAfter_ms } from '../../../src/core/log/written-after.ts';

const now_ms = Date.UTC(2026, 6, 20, 22);
const year_ms = 365 * 86_400_000;
const nest = NestId.parse('W-1');
let count = 0;
const writing = (at_ms: number) => ({
  now_ms: at_ms,
  random: Uint8Array.from({ length: 16 }, (_, i) => (++count * 37 + i) % 256),
  author: 'Ana',
  device: 'a',
  zone: 'UTC',
});

describe('a clock that runs ahead', () => {
  test('does not make its correction win over one that was made later', () => {
    const registered = writeEvent(
      { kind: 'nest-registered', nest, details: { species: 'Caretta caretta' } },
      writing(now_ms),
    ).event;
    const note = noteVisit(nest, { surface: 'dip' }, writing(now_ms)).event;
    const ahead = correctEvent(note.id, { surface: 'caved' }, writing(now_ms + year_ms)).event;
    const record = fold([registered, note, ahead]);
    const body = { kind: 'corrected', target: note.id, changes: { surface: 'smooth' } } as const;
    const written_ms = writtenAfter_ms(record, body, now_ms + 60_000);
    expect(written_ms).toBe(now_ms + year_ms + 1);
    const right = writeEvent(body, writing(written_ms)).event;
    const [visit] = fold([registered, note, ahead, right]).nests.get(nest)?.visits ?? [];
    expect(visit?.surface).toBe('smooth');
    // By the clocks alone the wrong one would have won.
    const byClock = writeEvent(body, writing(now_ms + 60_000)).event;
    const [other] = fold([registered, note, ahead, byClock]).nests.get(nest)?.visits ?? [];
    expect(other?.surface).toBe('caved');
  });

  test('leaves notes at the time they were written', () => {
    const note = noteVisit(nest, { surface: 'dip' }, writing(now_ms + year_ms)).event;
    const body = { kind: 'visit-noted', nest, details: { surface: 'dip' } } as const;
    expect(writtenAfter_ms(fold([note]), body, now_ms)).toBe(now_ms);
  });

  test('a withdrawal of a correction comes after it', () => {
    const note = noteVisit(nest, { surface: 'dip' }, writing(now_ms)).event;
    const ahead = correctEvent(note.id, { surface: 'caved' }, writing(now_ms + year_ms)).event;
    const body = { kind: 'withdrawn', target: ahead.id } as const;
    expect(writtenAfter_ms(fold([note, ahead]), body, now_ms)).toBe(now_ms + year_ms + 1);
  });
});
