import 'fake-indexeddb/auto';
import { expect, test } from 'vitest';
import { BrowserClips } from '../../../src/edges/store/clip-shelf.ts';

const clip = (id: string, bytes: number, at_ms = 0) => ({
  id,
  nest: 'W-014',
  note: id,
  at_ms,
  seconds: 3,
  sound: new Uint8Array(bytes).fill(7),
});

test('clips come back as they were, oldest first, until they are taken out', async () => {
  const shelf = new BrowserClips(1000, 'clips-1');
  expect(await shelf.all()).toEqual([]);
  expect(await shelf.keep(clip('b', 300, 2))).toEqual({ ok: true });
  expect(await shelf.keep(clip('a', 300, 1))).toEqual({ ok: true });
  expect(await new BrowserClips(1000, 'clips-1').all()).toEqual([
    clip('a', 300, 1),
    clip('b', 300, 2),
  ]);
  await shelf.drop('a');
  expect((await shelf.all()).map(({ id }) => id)).toEqual(['b']);
});

test('one for which there is no room is refused with what to do; the others stay', async () => {
  const shelf = new BrowserClips(1000, 'clips-2');
  await shelf.keep(clip('a', 800));
  const kept = await shelf.keep(clip('b', 300));
  expect(kept).toMatchObject({ ok: false });
  expect(JSON.stringify(kept)).toMatch(/Remove one first/);
  expect(await shelf.keep(clip('a', 900))).toEqual({ ok: true });
  expect((await shelf.all()).map(({ id }) => id)).toEqual(['a']);
});
