import fc from 'fast-check';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { guarded, unguarded } from '../../../../src/core/exchange/csv/guard.ts';
import { eachCsvRow } from '../../../../src/core/exchange/csv/read-csv.ts';
import { writeCsv } from '../../../../src/core/exchange/csv/write-csv.ts';

const awkward = fc.string({
  unit: fc.constantFrom('a', '"', ',', ';', '\n', '\r', '\t', "'", '=', '-', ' ', '\u00e9', '1'),
  maxLength: 8,
});
const table = fc.integer({ min: 1, max: 4 }).chain((width) =>
  fc.array(fc.array(awkward, { minLength: width, maxLength: width }), {
    minLength: 1,
    maxLength: 6,
  }),
);

function readRows(text: string): readonly (readonly string[])[] {
  const found: (readonly string[])[] = [];
  eachCsvRow(
    text,
    ',',
    ({ cells }) => found.push(cells),
    (fault) => expect.fail(JSON.stringify(fault)),
  );
  return found;
}

test('a table that is written is read as it was, whatever its cells hold', () => {
  fc.assert(
    fc.property(table, fc.constantFrom('\n' as const, '\r\n' as const), (rows, newline) => {
      const kept = rows.filter((cells) => cells.length > 1 || cells[0] !== '');
      expect(
        readRows(writeCsv(rows, newline)).filter(
          (cells) => cells.join('') !== '' || cells.length > 1,
        ),
      ).toEqual(kept);
    }),
    { seed: 41, numRuns: 500 },
  );
});

test('another reader of CSV finds the same cells', () => {
  fc.assert(
    fc.property(table, (rows) => {
      const { data } = Papa.parse<string[]>(writeCsv(rows, '\r\n').slice(0, -2), {
        delimiter: ',',
        newline: '\r\n',
      });
      expect(data).toEqual(rows);
    }),
    { seed: 42, numRuns: 500 },
  );
});

test('the guard against formulas is taken off again, for any text', () => {
  fc.assert(
    fc.property(awkward, fc.boolean(), (text, guard) => {
      expect(unguarded(guarded(text, guard))).toBe(text);
    }),
    { seed: 43, numRuns: 1000 },
  );
});

test('no guarded text begins with what a spreadsheet would run, save plain numbers', () => {
  fc.assert(
    fc.property(awkward, (text) => {
      const written = guarded(text, true);
      expect(/^[=+\-@\t\r]/.test(written) && Number.isNaN(Number(written))).toBe(false);
    }),
    { seed: 44, numRuns: 1000 },
  );
});
