import { describe, expect, test } from 'vitest';
import { sniffDelimiter } from '../../../../src/core/exchange/csv/delimiter.ts';

const known = new Set(['nest', 'time', 'note']);
const sniff = (text: string): string => sniffDelimiter(text, (name) => known.has(name));

describe('what parts the cells of a file', () => {
  test('is found from a header alone', () => {
    expect(sniff('nest,time,note')).toBe(',');
    expect(sniff('nest;time;note\n')).toBe(';');
    expect(sniff('nest\ttime\tnote\r\n')).toBe('\t');
  });
  test('is the comma for a file of one column', () => {
    expect(sniff('nest\nW-1\nW-2;3\n')).toBe(',');
  });
  test('is not misled by other marks inside headings', () => {
    expect(sniff('nest;"a, b, c, d";time\n')).toBe(';');
    expect(sniff('nest,x;y;z;w,time\n')).toBe(',');
  });
  test('is decided by the names we know, not by the number of pieces', () => {
    expect(sniff('nest;time,with,many,commas\n')).toBe(';');
  });
});
