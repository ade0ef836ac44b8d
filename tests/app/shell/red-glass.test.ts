import { afterEach, beforeEach, expect, test } from 'vitest';
import { glassForPictographs } from '../../../src/app/screens/shell/red-glass.ts';

let end: () => void = () => undefined;
const glass = (): string | undefined => document.documentElement.dataset['glass'];
/** What a page is told of its changes, it is told before this is over. */
const told = (): Promise<void> => Promise.resolve();

beforeEach(() => {
  document.body.innerHTML = '<main><p>Nest W-1 ⚑ 10 % → 3 # 4 *</p></main>';
});

afterEach(() => {
  end();
  delete document.documentElement.dataset['glass'];
});

test('words, digits and the app’s own signs need no glass', async () => {
  end = glassForPictographs(document);
  document.querySelector('p')?.append('✓ ✗ ▸ · × ½ ñ');
  await told();
  expect(glass()).toBeUndefined();
});

test('a pictograph that stands there when it gets dark is behind glass at once', () => {
  document.querySelector('p')?.append('zone 🐢');
  end = glassForPictographs(document);
  expect(glass()).toBe('red');
});

test.each([
  ['a turtle', '🐢'],
  ['a flag', '🇦🇶'],
  ['a family of several joined into one', '👩\u200d👧'],
  ['a sun that would be a plain sign but for its variation', '☀\ufe0f'],
  ['a heart that some systems paint red and others black', '❤'],
  ['a digit in a frame', '1\ufe0f\u20e3'],
  ['one that is not invented yet', '\u{1faff}'],
])('%s that comes later is behind glass before it is painted', async (_, written) => {
  end = glassForPictographs(document);
  const row = document.createElement('li');
  row.innerHTML = '<b></b>';
  document.querySelector('main')?.append(row);
  await told();
  expect(glass()).toBeUndefined();
  row.firstElementChild?.append(`nest ${written}`);
  await told();
  expect(glass()).toBe('red');
});

test('a text that changes in place is seen too', async () => {
  end = glassForPictographs(document);
  const text = document.querySelector('p')?.firstChild;
  if (text) text.nodeValue = 'Nest 🌊';
  await told();
  expect(glass()).toBe('red');
});

test('by day nobody watches any more', async () => {
  glassForPictographs(document)();
  document.querySelector('p')?.append('🐢');
  await told();
  expect(glass()).toBeUndefined();
});
