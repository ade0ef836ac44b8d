import { expect, test } from 'vitest';
import { backupText, readBackup } from '../../../src/app/state/backup.ts';
import type { LoggedEvent } from '../../../src/core/log/event-log.ts';
import { readEvent } from '../../../src/core/log/upcast.ts';
import { SeasonBuilder } from '../../builders/season.ts';

const season = new SeasonBuilder().nest('W-1').visit('W-1', '2026-07-20', { surface: 'dip' });
const known: readonly LoggedEvent[] = season.events.map((event) => ({ state: 'known', event }));

test('a backup holds every event and reads back as it was', () => {
  const newer = readEvent({ id: 'from-tomorrow', schema: 99, kind: 'unheard of' });
  const { events, torn } = readBackup(backupText([...known, newer]));
  expect(events).toEqual([...known, newer]);
  expect(torn).toEqual([]);
});

test('a copy that broke off loses its last line only, and says which', () => {
  const text = backupText(known);
  const { events, torn } = readBackup(text.slice(0, -20));
  expect(events).toEqual(known.slice(0, -1));
  expect(torn).toEqual([2]);
});

test('line ends of another system do no harm', () => {
  expect(readBackup(backupText(known).replaceAll('\n', '\r\n')).events).toEqual(known);
});

test('a line with a number that no number can hold is numbered and left out, as it would come back as another', () => {
  const large = backupText(known).split('\n')[0]?.replace('"schema":1', '"schema":1,"more":-1e999');
  const { events, torn } = readBackup(`${large ?? ''}\n${backupText(known)}`);
  expect(torn).toEqual([1]);
  expect(events).toEqual(known);
});

test('a line nested deeper than any event is numbered and left out, so that the record can be backed up again', () => {
  const deep = `{"id":"deep","schema":99,"more":${'['.repeat(5000)}${']'.repeat(5000)}}`;
  const { events, torn } = readBackup(`${deep}\n${backupText(known)}`);
  expect(torn).toEqual([1]);
  expect(backupText(events)).toBe(backupText(known));
});
