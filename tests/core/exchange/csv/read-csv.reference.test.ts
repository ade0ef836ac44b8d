import { describe, expect, test } from 'vitest';
import { eachCsvRow } from '../../../../src/core/exchange/csv/read-csv.ts';

const rows = (text: string): readonly (readonly string[])[] => {
  const found: (readonly string[])[] = [];
  eachCsvRow(
    text,
    ',',
    ({ cells }) => found.push(cells),
    (fault) => expect.fail(JSON.stringify(fault)),
  );
  return found;
};

// Truth: the examples in RFC 4180, section 2, by their numbers there. Exact.
describe('the examples of RFC 4180', () => {
  test('1: each record on its own line, ended by CRLF', () => {
    expect(rows('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });
  test('2: the last record may lack its line break', () => {
    expect(rows('aaa,bbb,ccc\r\nzzz,yyy,xxx')).toHaveLength(2);
  });
  test('3: a header has the form of a record', () => {
    expect(rows('field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toHaveLength(
      3,
    );
  });
  test('5: fields may stand in quotation marks', () => {
    expect(rows('"aaa","bbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });
  test('6: line breaks, quotation marks and commas inside them', () => {
    expect(rows('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx')).toEqual([
      ['aaa', 'b\r\nbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
  });
  test('7: a quotation mark inside them is doubled', () => {
    expect(rows('"aaa","b""bb","ccc"')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });
});
