import { expect, test } from 'vitest';
import { largeVisits } from '../../builders/large-visits.ts';
import { oneNest, read } from '../../builders/season-files.ts';

// Ordinary rows of this size are measured by `npm run bench -- import`; here the notes are long, so
// that the suite stays quick.
test('a file of 50 MB is read to its end, good rows and bad', () => {
  const visits = largeVisits(50e6, 'a long note, with a comma. '.repeat(300));
  expect(visits.bytes.length).toBeGreaterThan(50e6);
  const { counts, problems } = read({ 'nests.csv': oneNest, 'visits.csv': visits.bytes });
  const bad = Math.floor(visits.rows / 1000);
  expect(counts.visits).toEqual({ rows: visits.rows, taken: visits.rows - bad });
  expect(problems.map(({ row }) => row)).toEqual(
    Array.from({ length: bad }, (_, index) => (index + 1) * 1000 + 1),
  );
}, 60_000);
