import { expect, test } from 'vitest';
import { monotoneRows } from '../../../src/core/inference/monotone-rows.ts';

test('rows in line stay the very same', () => {
  const rows = [
    [0.3, 0.3, 0.4],
    [0.5, 0.3, 0.2],
    [0.9, 0.05, 0.05],
  ];
  expect(monotoneRows(rows, [1, 1, 1])).toBe(rows);
});

test('a far row with more high states than a nearer one is pooled with it by weight', () => {
  const pooled = monotoneRows(
    [
      [0.4, 0.6],
      [0.9, 0.1],
      [0.6, 0.4],
    ],
    [1, 1, 3],
  );
  // (0.1 x 1 + 0.4 x 3) / 4 = 0.325
  const expected = [0.6, 0.325, 0.325];
  pooled.forEach((row, index) => {
    expect(row[1]).toBeCloseTo(expected[index]!, 12);
    expect(row[0]! + row[1]!).toBeCloseTo(1, 12);
  });
});

test('pooling one level keeps every row a distribution and all levels in line', () => {
  const rows = monotoneRows(
    [
      [0.5, 0.2, 0.2, 0.1],
      [0.5, 0.1, 0.1, 0.3],
      [0.2, 0.6, 0.1, 0.1],
      [0.8, 0.1, 0.05, 0.05],
    ],
    [5, 1, 2, 8],
  );
  const above = (row: readonly number[], from: number): number =>
    row.slice(from).reduce((sum, p) => sum + p, 0);
  rows.forEach((row, index) => {
    expect(above(row, 0)).toBeCloseTo(1, 12);
    for (const p of row) expect(p).toBeGreaterThanOrEqual(0);
    for (let from = 1; from < 4 && index > 0; from++) {
      expect(above(row, from)).toBeLessThanOrEqual(above(rows[index - 1]!, from) + 1e-12);
    }
  });
});
