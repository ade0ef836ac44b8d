import { describe, expect, test } from 'vitest';
import {
  emptyFields,
  fieldsOf,
  type NestFields,
  type ShoreField,
  nestChanges,
  readNestFields,
} from '../../../src/app/screens/nest/nest-fields.ts';
import type { FactOf } from '../../../src/core/log/season-record.ts';
import { nestId, scratchSeason } from '../note/scratch-season.ts';

type Fact = FactOf<'nest-registered'>;

const none: ReadonlySet<string> = new Set();
const metric: ShoreField = { measures: 'metric', held_m: null };
const feet: ShoreField = { measures: 'feet', held_m: null };
const named: NestFields = { ...emptyFields, nest: 'W-021' };

function problem(field: keyof NestFields, text: string): string | undefined {
  const read = readNestFields({ ...named, [field]: text }, none, metric);
  return read.ok ? undefined : read.problems.get(field);
}

describe('the form of a nest', () => {
  test('blank fields are not known', () => {
    const read = readNestFields(named, none, metric);
    expect(read.ok && Object.values(read.details).every((value) => value === null)).toBe(true);
  });

  test('a decimal comma is read as a point', () => {
    const read = readNestFields({ ...named, shore_m: '27,5' }, none, metric);
    expect(read.ok && read.details.shore_m).toBe(27.5);
    const place = { latitude: '27,12345', longitude: '-74,00001' };
    expect(readNestFields({ ...named, ...place }, none, metric)).toMatchObject({
      details: { latitude: 27.12345, longitude: -74.00001 },
    });
  });

  test.each([
    ['clutch', '90.5', '“90.5” is not a whole number from 0 to 300.'],
    ['clutch', 'about 90', '“about 90” is not a whole number from 0 to 300.'],
    ['latitude', '97', '“97” is not a number from -90 to 90.'],
    [
      'lay_night',
      '2026-02-30',
      '“2026-02-30” is not a date that exists. Write it like 2026-07-20.',
    ],
    ['latitude', '27.1', undefined],
    ['nest', '  ', 'Give the name that stands on its marker, such as W-014.'],
  ] as const)('%s %j: %s', (field, text, message) => {
    expect(problem(field, text)).toBe(message);
  });

  test('half a position is sent back, with the half that is missing', () => {
    const read = readNestFields({ ...named, latitude: '27.1' }, none, metric);
    expect(!read.ok && read.problems.get('longitude')).toMatch(/A position needs both/);
  });

  test('a last possible night before the first is sent back', () => {
    const read = readNestFields(
      { ...named, lay_night: '2026-06-10', lay_night_latest: '2026-06-08' },
      none,
      metric,
    );
    expect(!read.ok && read.problems.has('lay_night_latest')).toBe(true);
  });

  test('what was registered comes back out of the form unchanged', async () => {
    const made = await scratchSeason({
      nests: {
        'W-014': { species: 'Chelonia mydas', clutch: 0, screened: false, shore_m: 12.5 },
      },
    });
    const fact = made.season.record.nests.get(nestId('W-014'))?.registration.fact;
    if (fact === undefined) throw new Error('not registered');
    const read = readNestFields(fieldsOf(fact, 'metric'), none, metric);
    expect(read.ok && nestChanges(fact, read)).toEqual({});
  });

  test('feet are kept as metres, and read back as the feet they were', () => {
    const read = readNestFields({ ...named, shore_m: '405' }, none, feet);
    expect(read.ok && read.details.shore_m).toBe(123.444);
    const fact = { nest: nestId('W-021'), details: { shore_m: 123.444 } } as Fact;
    expect(fieldsOf(fact, 'feet').shore_m).toBe('405');
  });

  test.each([123.4, 12.5, 0.001, -40, 0, 98765.4321, 1 / 3])(
    'a nest at %s m that is opened in feet and saved untouched stays as it is on record',
    (shore_m) => {
      const fact = { nest: nestId('W-021'), details: { shore_m } } as Fact;
      const read = readNestFields(fieldsOf(fact, 'feet'), none, { ...feet, held_m: shore_m });
      expect(read.ok && read.details.shore_m).toBe(shore_m);
      expect(read.ok && nestChanges(fact, read)).toEqual({});
    },
  );

  test('what lies too far along the shore is sent back with the bounds in feet', () => {
    const read = readNestFields({ ...named, shore_m: '330000' }, none, feet);
    expect(!read.ok && read.problems.get('shore_m')).toBe(
      '“330000” is not a number from -328083 to 328083.',
    );
    for (const bound of ['-328083', '328083']) {
      expect(readNestFields({ ...named, shore_m: bound }, none, feet).ok).toBe(true);
    }
  });
});
