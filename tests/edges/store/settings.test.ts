import { expect, test } from 'vitest';
import { SettingsShelf } from '../../../src/edges/store/settings.ts';
import { ScratchShelf } from '../../builders/scratch-shelf.ts';

const numbered = (): (() => string) => {
  let count = 0;
  return () => `device-${++count}`;
};

test('a device is named once and keeps its name', () => {
  const shelf = new ScratchShelf();
  const first = new SettingsShelf(shelf, numbered()).read();
  expect(first).toMatchObject({ device: 'device-1', author: null, darkSwitch: 'auto' });
  const later = new SettingsShelf(shelf, () => 'another').read();
  expect(later.device).toBe('device-1');
});

test('what was saved is read back', async () => {
  const shelf = new ScratchShelf();
  const settings = {
    ...new SettingsShelf(shelf).read(),
    author: 'Ada Invented',
    cautionsSeen: true,
    language: null,
    measures: 'feet' as const,
  };
  await new SettingsShelf(shelf).save(settings);
  expect(await new SettingsShelf(shelf).load()).toEqual(settings);
});

test('one damaged value gives its default and spoils no other', () => {
  const shelf = new ScratchShelf();
  shelf.text = JSON.stringify({
    device: 'd',
    author: 7,
    darkSwitch: 'sometimes',
    lastNest: 'N-1',
    measures: 'cubits',
  });
  expect(new SettingsShelf(shelf).read()).toMatchObject({
    device: 'd',
    author: null,
    darkSwitch: 'auto',
    lastNest: 'N-1',
    measures: 'metric',
  });
});

test.each(['', '{"device": "d', '[1]', '"text"', 'null'])(
  'text that is no settings at all (%s) gives the defaults',
  (text) => {
    const shelf = new ScratchShelf();
    shelf.text = text;
    expect(new SettingsShelf(shelf, numbered()).read()).toMatchObject({
      device: 'device-1',
      cautionsSeen: false,
      language: null,
      measures: 'metric',
    });
  },
);

test('settings that could not be kept are told with what to do', async () => {
  const shelf = new ScratchShelf();
  shelf.isFull = true;
  const settings = new SettingsShelf(shelf);
  await expect(settings.save(settings.read())).rejects.toThrow('Free some space');
  await expect(new SettingsShelf(null).save(settings.read())).rejects.toThrow('Free some space');
});
