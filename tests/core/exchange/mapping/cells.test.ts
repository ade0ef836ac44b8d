import { describe, expect, test } from 'vitest';
import { readClock } from '../../../../src/core/exchange/mapping/clock-text.ts';
import { readDay, tellOrder } from '../../../../src/core/exchange/mapping/date-order.ts';
import { plainNumber, tellComma } from '../../../../src/core/exchange/mapping/number-style.ts';
import { plainDegrees } from '../../../../src/core/exchange/mapping/position-text.ts';
import {
  inOurUnit,
  numberWithUnit,
  tellUnit,
} from '../../../../src/core/exchange/mapping/units.ts';
import { readWhen } from '../../../../src/core/exchange/mapping/when-text.ts';

describe('a date', () => {
  test.each([
    ['2026-04-03', '2026-04-03'],
    ['2026/4/3', '2026-04-03'],
    ['20260403', '2026-04-03'],
    ['3/4/26', '2026-04-03'],
    ['03.04.2026', '2026-04-03'],
    ['3-abr-26', '2026-04-03'],
    ['3 de abril de 2026', '2026-04-03'],
    ['viernes, 3 de abril de 2026', '2026-04-03'],
    ['Apr 3, 2026', '2026-04-03'],
    ['April 3rd 2026', '2026-04-03'],
    ['martes 3 de marzo de 2026', '2026-03-03'],
    ['1 set 2026', '2026-09-01'],
    ['46115', '2026-04-03'],
    ['31/02/2026', null],
    ['3 abril', null],
    ['12345', null],
    ['nest 3 april 2026', null],
  ])('%s is %s', (text, date) => {
    expect(readDay(text, 'day first')).toBe(date);
  });

  test('in figures is read by the order it is said to have', () => {
    expect(readDay('03/04/2026', 'month first')).toBe('2026-03-04');
    expect(readDay('26/07/20', 'year first')).toBe('2026-07-20');
  });
});

describe('the order of the dates of a column', () => {
  test('is told by one value that fits only one', () => {
    expect(tellOrder(['03/04/2026', '25/04/2026'])).toEqual({ told: 'one', order: 'day first' });
    expect(tellOrder(['03/04/2026', '04/25/2026'])).toEqual({ told: 'one', order: 'month first' });
  });

  test('is asked when every value fits both, or when they speak against each other', () => {
    expect(tellOrder(['2026-04-03', '03/04/2026 21:30'])).toMatchObject({
      told: 'several',
      example: '03/04/2026',
    });
    expect(tellOrder(['25/04/2026', '04/25/2026', '01/02/2026'])).toMatchObject({
      told: 'several',
      example: '01/02/2026',
    });
  });

  test('does not matter where no value depends on it', () => {
    expect(tellOrder(['04/04/2026', '2026-04-03', '3 abr 2026', ''])).toEqual({
      told: 'no matter',
    });
  });

  test('may begin with a year of two figures', () => {
    expect(tellOrder(['26/07/20', '26/07/21', '26/08/02'])).toMatchObject({
      told: 'several',
      readings: [
        { order: 'day first', date: '2020-07-26' },
        { order: 'year first', date: '2026-07-20' },
      ],
    });
  });
});

describe('a time of day', () => {
  test.each([
    ['21:30', '21:30'],
    ['9:30 PM', '21:30'],
    ['12:05 a. m.', '00:05'],
    ['21h30', '21:30'],
    ['21 h', '21:00'],
    ['21.30', '21:30'],
    ['2130', '21:30'],
    ['0.8958333333', '21:30'],
    ['21:30:00', '21:30'],
    ['21:30:15', '21:30:15'],
    ['25:00', null],
    ['13 pm', null],
    ['late', null],
  ])('%s is %s', (text, clock) => {
    expect(readClock(text)).toBe(clock);
  });

  test('comes with its date in one cell', () => {
    const whole = { date: '2026-04-03', clock: '21:30', instant: null };
    for (const text of [
      '03/04/2026 21:30',
      '3/4/26, 9:30 p.m.',
      '2026-04-03T21:30',
      '21:30 03/04/2026',
      '3 de abril de 2026 a las 21:30',
      '46115.895833333',
    ]) {
      expect(readWhen(text, 'day first')).toEqual(whole);
    }
    const instant = '2026-04-03T21:30-04:00';
    expect(readWhen(instant, 'day first')).toEqual({ date: null, clock: null, instant });
  });
});

describe('a number', () => {
  test('has a comma whose meaning is told by the column', () => {
    expect(tellComma(['27,4', '1,200'])).toEqual({ told: 'one', comma: 'decimal' });
    expect(tellComma(['1,200.5', '1,200'])).toEqual({ told: 'one', comma: 'thousands' });
    expect(tellComma(['1,200', '88'])).toEqual({ told: 'several', example: '1,200' });
    expect(tellComma(['27.4', '88'])).toEqual({ told: 'no matter' });
  });

  test('is written plainly', () => {
    expect(plainNumber('1.200,5', 'decimal')).toBe('1200.5');
    expect(plainNumber('1,200.5', 'thousands')).toBe('1200.5');
    expect(plainNumber('1 200', 'thousands')).toBe('1200');
    expect(plainNumber('12 or 13', 'thousands')).toBeNull();
    expect(plainNumber('1,2,3', 'thousands')).toBeNull();
  });

  test('has its unit by the heading, by what it can be, or else is asked', () => {
    expect(tellUnit('sand_c', 'Temp (°F)', [30])).toEqual({ told: 'one', unit: 'F' });
    expect(tellUnit('sand_c', 'Temp', [28, 31])).toEqual({ told: 'one', unit: 'C' });
    expect(tellUnit('sand_c', 'Temp', [82, 88])).toEqual({ told: 'one', unit: 'F' });
    expect(tellUnit('sand_c', 'Temp', [28, 88])).toEqual({ told: 'several' });
    expect(tellUnit('shore_m', 'Distancia', [120])).toEqual({ told: 'several' });
    expect(tellUnit('rain_mm', 'Lluvia', [0, 0])).toEqual({ told: 'no matter' });
    expect(tellUnit('rain_mm', 'Lluvia', [0, 12])).toEqual({ told: 'several' });
  });

  test('is reckoned into our unit, its own unit in the cell first', () => {
    expect(inOurUnit('86', 'F')).toBe('30');
    expect(inOurUnit('10', 'ft')).toBe('3.048');
    expect(inOurUnit('0.5', 'in')).toBe('12.7');
    expect(inOurUnit('80.123456', 'W')).toBe('-80.123456');
    expect(numberWithUnit('27,4 °C', ['C', 'F'], 'decimal')).toEqual({ number: '27.4', unit: 'C' });
    expect(numberWithUnit('0.5"', ['mm', 'in', 'cm'], 'thousands')).toEqual({
      number: '0.5',
      unit: 'in',
    });
  });
});

describe('a position', () => {
  test.each([
    ['27° 15\' 30" N', '27.2583333'],
    ['80°30′ W', '-80.5'],
    ['80,5 O', '-80.5'],
    ['N 27.25', '27.25'],
    ['27.25', null],
    ["27° 75' N", null],
  ])('%s is %s', (text, degrees) => {
    expect(plainDegrees(text)).toBe(degrees);
  });
});
