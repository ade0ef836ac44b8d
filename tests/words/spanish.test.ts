import { afterAll, beforeAll, expect, test } from 'vitest';
import type * as RosterWords from '../../src/app/screens/roster/roster-words.ts';
import type * as CodeWords from '../../src/core/domain/code-words.ts';
import type * as Locale from '../../src/core/domain/locale.ts';
import type * as NightText from '../../src/core/domain/night-text.ts';
import type * as PositionText from '../../src/core/domain/position-text.ts';
import { asNight, parseNight } from '../../src/core/domain/night.ts';
import type * as WriteSeasonFolder from '../../src/core/exchange/season-folder/write-season-folder.ts';
import { fold } from '../../src/core/log/fold.ts';
import { read } from '../builders/season-files.ts';
import { type InLanguage, inLanguage } from './in-language.ts';

let spanish: InLanguage;
let locale: typeof Locale;
let words: typeof CodeWords;
let nights: typeof NightText;

beforeAll(async () => {
  spanish = await inLanguage('es');
  locale = (await spanish.read('src/core/domain/locale.ts')) as typeof Locale;
  words = (await spanish.read('src/core/domain/code-words.ts')) as typeof CodeWords;
  nights = (await spanish.read('src/core/domain/night-text.ts')) as typeof NightText;
});

afterAll(() => spanish.close());

test('the catalogue gives the tag by which numbers and lists know the language', () => {
  expect(locale.localeTag).toBe('es');
});

test('numbers have a decimal comma, and points between thousands', () => {
  expect(locale.fixedText(0.5, 2)).toBe('0,50');
  expect(locale.fixedText(7.4, 0)).toBe('7');
  expect(locale.numberText(-38.125)).toBe('-38,125');
  expect(locale.countOf(12345)).toBe('12.345');
});

test('a position that is read has decimal commas, in a file it has points', async () => {
  const place = (await spanish.read('src/core/domain/position-text.ts')) as typeof PositionText;
  expect(place.positionText(27.123456, -74)).toBe('27,12346; -74,00000');
  const files = (await spanish.read(
    'src/core/exchange/season-folder/write-season-folder.ts',
  )) as typeof WriteSeasonFolder;
  const { events, zone } = read({
    'nests.csv': 'nest,latitude,longitude\nW-1,27.12346,-74.5\n',
    'programme.json': '{"latitude":27.25,"longitude":-74.5}',
  });
  const written = files.writeSeasonFolder(fold(events, zone), { guard: false });
  expect(written.get('nests.csv')).toBe('nest,latitude,longitude\nW-1,27.12346,-74.5\n');
  expect(JSON.parse(written.get('programme.json') ?? '')).toMatchObject({ latitude: 27.25 });
});

test('how far a plan may be from the best is said with decimal commas', async () => {
  const { proofWords } = (await spanish.read(
    'src/app/screens/roster/roster-words.ts',
  )) as typeof RosterWords;
  const plan = { posts: [], value: 2.267 };
  const roster = { plan, bound: 2.345, gap: 0.034, unmet: [], notices: [], trouble: null };
  expect(proofWords(roster, 'boils')).toBe(
    'El mejor plan podría lograr un 3,4 % más como mucho (2,3).',
  );
});

test('lists end in y, or in e before the sound of i', () => {
  expect(locale.listWords(['Ada', 'Bo', 'Cy'])).toBe('Ada, Bo y Cy');
  expect(locale.listWords(['Ada', 'Inés'])).toBe('Ada e Inés');
});

test('ñ is a letter of its own after n', () => {
  expect(['ñu', 'oso', 'nube', 'Ada'].sort(locale.compareNames)).toEqual([
    'Ada',
    'nube',
    'ñu',
    'oso',
  ]);
});

test('dates have Spanish days and months', () => {
  const night = parseNight('2026-01-05');
  expect(nights.nightText(night ?? asNight(0))).toBe('lun 5 ene');
  expect(nights.dateWords('2026-08-08')).toBe('sáb 8 ago');
  expect(nights.dateWords('soon')).toBe('soon');
});

test('what is seen and heard is said in Spanish, under the names that the record has', () => {
  expect(words.surfaceWord).toEqual({
    smooth: 'lisa',
    dip: 'hundimiento leve',
    depression: 'depresión',
    caved: 'derrumbada',
  });
  expect(words.soundWord).toEqual({
    quiet: 'silencio',
    occasional: 'ocasional',
    steady: 'constante',
    waterfall: 'cascada',
  });
});

test('one English word with two meanings has two Spanish ones', () => {
  expect([words.rainWord.heavy, words.rainWord.none]).toEqual(['fuerte', 'ninguna']);
  expect([words.rainWord.light, words.lampKindWord['hand light']]).toEqual(['ligera', 'linterna']);
  expect([words.yesNoWord(true), words.yesNoWord(false)]).toEqual(['sí', 'no']);
});

test('a value of the record is said in Spanish, a remark stays as it was written', () => {
  expect(words.valueWord('washover')).toBe('lavado por el mar');
  expect(words.valueWord('the dip by the post')).toBe('the dip by the post');
});

test('the colour of a lamp follows its kind', () => {
  const lamp = { bearing_deg: null, place: null } as const;
  expect(words.lampWords({ kind: 'street lamp', colour: 'white', ...lamp })).toBe('farola blanca');
  expect(words.lampWords({ kind: 'window', colour: 'other', ...lamp })).toBe('ventana');
});
