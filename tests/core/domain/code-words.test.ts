import { describe, expect, test } from 'vitest';
import * as words from '../../../src/core/domain/code-words.ts';
import { LampColour, LampKind } from '../../../src/core/domain/lamp.ts';
import {
  Emergence,
  Experience,
  Instrument,
  Mishap,
  Rain,
  Sound,
  Surface,
  WayStep,
  Wind,
} from '../../../src/core/domain/visit.ts';
import { Role } from '../../../src/core/domain/volunteer.ts';

const lists = [
  { of: 'surface', values: Surface.options, said: words.surfaceWord },
  { of: 'sound', values: Sound.options, said: words.soundWord },
  { of: 'mishap', values: Mishap.options, said: words.mishapWord },
  { of: 'instrument', values: Instrument.options, said: words.instrumentWord },
  { of: 'wind', values: Wind.options, said: words.windWord },
  { of: 'rain', values: Rain.options, said: words.rainWord },
  { of: 'experience', values: Experience.options, said: words.experienceWord },
  { of: 'role', values: Role.options, said: words.roleWord },
  { of: 'emergence', values: Emergence.options, said: words.emergenceWord },
  { of: 'way to the water', values: WayStep.options, said: words.wayWord },
  { of: 'lamp', values: LampKind.options, said: words.lampKindWord },
  { of: 'colour of a lamp', values: LampColour.options, said: words.lampColourWord },
];

describe.each(lists)('the words for $of', ({ values, said }) => {
  test('are in English the values of the record themselves, and there is none too many', () => {
    expect(Object.entries(said)).toEqual(values.map((value) => [value, value]));
  });
});

test('a value out of a list is said by its word, and what somebody wrote stays as it is', () => {
  expect(words.valueWord('caved')).toBe('caved');
  expect(words.valueWord('morning')).toBe('morning');
  expect(words.valueWord('Ada saw it')).toBe('Ada saw it');
  expect(words.valueWord('')).toBe('');
});

test('a remark that is named like a part of the language is a remark', () => {
  for (const text of ['constructor', 'toString', '__proto__']) {
    expect(words.valueWord(text)).toBe(text);
  }
});

test('yes and no', () => {
  expect([words.yesNoWord(true), words.yesNoWord(false)]).toEqual(['yes', 'no']);
});
