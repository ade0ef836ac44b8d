import { afterEach, beforeEach, expect, test } from 'vitest';
import { glassOverPictographs } from '../../../src/app/screens/shell/red-glass.ts';

let end: () => void = () => undefined;
/** What of the page is seen through red glass. */
const behind = (): readonly string[] =>
  [...document.querySelectorAll('[data-glass]')].map((one) => one.textContent);
/** What a page is told of its changes, it is told before this is over. */
const told = (): Promise<void> => Promise.resolve();

beforeEach(() => {
  document.body.innerHTML = '<main><p>Nest W-1 ⚑ 10 % → 3 # 4 *</p></main>';
});

afterEach(() => {
  end();
});

test('words, digits and the app’s own signs need no glass', async () => {
  end = glassOverPictographs(document);
  document.querySelector('p')?.append('✓ ✗ ▸ · × ½ ñ');
  await told();
  expect(behind()).toEqual([]);
});

test('a pictograph that stands there when it gets dark is behind glass at once, and it alone', () => {
  document.querySelector('main')?.insertAdjacentHTML('beforeend', '<ul><li>zone 🐢</li></ul>');
  end = glassOverPictographs(document);
  expect(behind()).toEqual(['zone 🐢']);
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
  end = glassOverPictographs(document);
  const row = document.createElement('li');
  row.innerHTML = `<b>nest <i>${written}</i></b> and <b>nest W-2</b>`;
  document.querySelector('main')?.append(row);
  await told();
  expect(behind()).toEqual([written]);
});

test('a text that changes in place is seen too', async () => {
  end = glassOverPictographs(document);
  const text = document.querySelector('p')?.firstChild;
  if (text) text.nodeValue = 'Nest 🌊';
  await told();
  expect(behind()).toEqual(['Nest 🌊']);
});

test('a drawing’s text is seen too', async () => {
  end = glassOverPictographs(document);
  document
    .querySelector('main')
    ?.insertAdjacentHTML('beforeend', '<svg><text>dune</text><text>🌊</text></svg>');
  await told();
  expect(behind()).toEqual(['🌊']);
});

test('by day nobody watches any more', async () => {
  glassOverPictographs(document)();
  document.querySelector('p')?.append('🐢');
  await told();
  expect(behind()).toEqual([]);
});
