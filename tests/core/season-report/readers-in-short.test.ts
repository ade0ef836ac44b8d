import { expect, test } from 'vitest';
import { EveningMemory } from '../../../src/core/forecast/evening-memory.ts';
import { misreadShare } from '../../../src/core/forecast/misreading.ts';
import { readersInShort } from '../../../src/core/season-report/readers-in-short.ts';
import { SeasonBuilder, eveningOf } from '../../builders/season.ts';

const row = (standard: number[], learned: number[], n: number) => ({ standard, learned, n });
const right = [
  [1, 0, 0, 0],
  [0, 1, 0, 0],
  [0, 0, 1, 0],
  [0, 0, 0, 1],
];

test('misreading is weighed by what was looked at', () => {
  const rows = [
    row([0.9, 0.1, 0, 0], [0.8, 0.2, 0, 0], 30),
    row([0.1, 0.7, 0.2, 0], [0.2, 0.5, 0.3, 0], 10),
    row(right[2]!, right[2]!, 0),
    row(right[3]!, right[3]!, 0),
  ];
  const [reader] = readersInShort([
    { of: 'surface', experience: 'novice', observer: 'Imre', rows, n: 40 },
  ]);
  expect(reader?.standard).toBeCloseTo(0.75 * 0.1 + 0.25 * 0.3, 12);
  expect(reader?.learned).toBeCloseTo(0.75 * 0.2 + 0.25 * 0.5, 12);
});

test('a record without notes leaves every class at its default', () => {
  const record = new SeasonBuilder().nest('W-1').record();
  const { readers } = new EveningMemory().cues(record, eveningOf('2026-06-20'));
  const short = readersInShort(readers);
  expect(short).toHaveLength(6);
  for (const { learned, standard, n } of short) {
    expect(n).toBe(0);
    expect(learned).toBeCloseTo(standard, 12);
  }
  // The two middle states are misread by the whole share, the two at the ends by half of it.
  const trained = short.find(({ of, experience }) => of === 'surface' && experience === 'trained');
  expect(trained?.standard).toBeCloseTo(misreadShare.trained * 0.75, 12);
});
