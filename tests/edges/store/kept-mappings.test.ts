import { expect, test } from 'vitest';
import type { Mapping } from '../../../src/core/exchange/mapping/mapping.ts';
import { KeptMappings } from '../../../src/edges/store/kept-mappings.ts';
import { ScratchShelf } from '../../builders/scratch-shelf.ts';

const mapping: Mapping = {
  table: 'nests',
  columns: {
    'nido.': { to: 'nest', words: {} },
    'fecha.': { to: 'lay_night', order: 'day first', words: {} },
  },
};

test('a mapping is known again by its headings after the page was closed, until it is forgotten', () => {
  const same = new ScratchShelf();
  new KeptMappings(same).keep('fecha.|nido.', mapping);
  expect(new KeptMappings(same).recall('fecha.|nido.')).toEqual(mapping);
  expect(new KeptMappings(same).recall('nido.')).toBeNull();
  new KeptMappings(same).forget('fecha.|nido.');
  expect(new KeptMappings(same).recall('fecha.|nido.')).toBeNull();
});

test('one that is damaged is as if it were not there, and spoils no other', () => {
  const damaged = new ScratchShelf(
    JSON.stringify([
      ['a', { table: 'boats' }],
      ['b', mapping],
    ]),
  );
  expect(new KeptMappings(damaged).recall('a')).toBeNull();
  expect(new KeptMappings(damaged).recall('b')).toEqual(mapping);
  expect(new KeptMappings(new ScratchShelf('{')).recall('b')).toBeNull();
});

test('the oldest go first, and without a shelf nothing fails', () => {
  const kept = new KeptMappings(new ScratchShelf());
  for (let at = 0; at < 45; at++) kept.keep(`h${at}`, mapping);
  expect(kept.recall('h4')).toBeNull();
  expect(kept.recall('h5')).toEqual(mapping);
  const none = new KeptMappings(null);
  none.keep('a', mapping);
  expect(none.recall('a')).toBeNull();
});
