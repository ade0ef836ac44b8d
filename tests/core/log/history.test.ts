import { expect, test } from 'vitest';
import { fold } from '../../../src/core/log/fold.ts';
import { history } from '../../../src/core/log/history.ts';
import { Pen } from '../../arbitraries/written.ts';

test('the history of a note tells who changed what, when, and from what to what', () => {
  const [ada, bo] = [new Pen('Ada Invented', 1), new Pen('Bo Invented', 2)];
  const visit = ada.visit('N-1', { surface: 'dip' });
  ada.nest('N-1');
  const corrected = bo.write({
    kind: 'corrected',
    target: visit.id,
    changes: { surface: 'caved', tracks: 3 },
    reason: 'looked again',
  });
  const withdrawn = ada.withdraw(visit.id);
  const restored = ada.withdraw(withdrawn.id);
  const taken = ada.withdraw(corrected.id);
  const unreadable = ada.correct(visit.id, { surface: 'gone' });
  const record = fold([visit, corrected, withdrawn, restored, taken, unreadable]);
  const versions = history(record, visit.id);
  expect(versions.map(({ did, event }) => [did, event.author])).toEqual([
    ['recorded', 'Ada Invented'],
    ['changed', 'Bo Invented'],
    ['withdrawn', 'Ada Invented'],
    ['restored', 'Ada Invented'],
    ['changed', 'Ada Invented'],
    ['no effect', 'Ada Invented'],
  ]);
  expect(versions[1]?.changes).toEqual([
    { field: 'surface', from: 'dip', to: 'caved' },
    { field: 'tracks', from: undefined, to: 3 },
  ]);
  expect(versions[4]?.changes).toEqual([
    { field: 'surface', from: 'caved', to: 'dip' },
    { field: 'tracks', from: 3, to: undefined },
  ]);
  expect(versions.map(({ written_ms }) => written_ms)).toEqual(
    versions.map(({ written_ms }) => written_ms).sort((a, b) => a - b),
  );
});

test('a withdrawn registration, which no nest shows, still has its history', () => {
  const pen = new Pen();
  const nest = pen.nest('N-1');
  const record = fold([nest, pen.withdraw(nest.id)]);
  expect(history(record, nest.id).map(({ did }) => did)).toEqual(['recorded', 'withdrawn']);
  expect(history(record, 'no such note')).toEqual([]);
});
