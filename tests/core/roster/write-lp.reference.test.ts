import loadHighs from 'highs';
import { describe, expect, test } from 'vitest';
import type { LinearProgram, Row } from '../../../src/core/roster/linear-program.ts';
import { openingsOf } from '../../../src/core/roster/openings.ts';
import { rosterProgram } from '../../../src/core/roster/roster-program.ts';
import { writeLp } from '../../../src/core/roster/write-lp.ts';
import { drawQuestion } from '../../builders/roster-question.ts';

// Truth: the reader of LP text in HiGHS; numbers must come back to the bit.
async function readBack(text: string): Promise<LinearProgram> {
  const highs = await loadHighs();
  return highs.withModel({ format: 'lp', data: text }, (model) => {
    const lp = model.getLp('csr');
    const { starts, indices, values } = lp.matrix;
    const sense = (low: number, high: number): Row['sense'] =>
      low === high ? '=' : Number.isFinite(high) ? '<=' : '>=';
    const terms: [number, number][][] = Array.from({ length: lp.numRows }, () => []);
    for (let row = 0; row < lp.numRows; row++) {
      for (let at = starts[row]!; at < (starts[row + 1] ?? values.length); at++) {
        terms[row]!.push([indices[at]!, values[at]!]);
      }
    }
    return {
      columns: Array.from(lp.colCost, (gain, column) => ({
        name: model.getColName(column),
        gain,
        lower: lp.colLower[column]!,
        upper: lp.colUpper[column]!,
        isWhole: lp.integrality[column] === 1,
      })),
      rows: terms.map((row, index) => {
        const [low, high] = [lp.rowLower[index]!, lp.rowUpper[index]!];
        return {
          name: model.getRowName(index),
          terms: row.sort(([a], [b]) => a - b),
          sense: sense(low, high),
          right: Number.isFinite(high) ? high : low,
        };
      }),
    };
  });
}

describe('a program as LP text', () => {
  test('is read back by another program column by column and row by row', async () => {
    const asked = drawQuestion({
      seed: 21,
      people: 9,
      posts: 4,
      nights: 3,
      zones: 2,
      offered: 0.6,
      pins: 3,
    });
    const found = openingsOf(asked);
    for (const aim of [
      { of: 'pins' } as const,
      { of: 'worth', unmet: new Set([0]) } as const,
      { of: 'people', unmet: new Set([0]), leastWorth: 0.123456789012345, leastPosts: 1 } as const,
    ]) {
      const { program } = rosterProgram(asked, found, aim);
      const back = await readBack(writeLp(program));
      expect(back.columns).toEqual(program.columns);
      expect(back.rows).toEqual(
        program.rows.map((row) => ({ ...row, terms: [...row.terms].sort(([a], [b]) => a - b) })),
      );
    }
  });

  test('cannot hold a number that is none', () => {
    const column = { name: 'y0', gain: NaN, lower: 0, upper: 1, isWhole: true };
    expect(() => writeLp({ columns: [column], rows: [] })).toThrow('An LP text cannot hold NaN.');
  });
});
