import { foot_m } from '../../domain/measures.ts';
import { plainNumber } from './number-style.ts';
import { plainText } from './plain-words.ts';

/** A unit in which people write what our tables hold in another. */
export const unitNames = ['C', 'F', 'm', 'ft', 'yd', 'km', 'mm', 'in', 'cm', 'E', 'W'] as const;
export type Unit = (typeof unitNames)[number];

/** Ours comes first. */
const choices: Readonly<Record<string, readonly Unit[]>> = {
  sand_c: ['C', 'F'],
  air_c: ['C', 'F'],
  shore_m: ['m', 'ft', 'yd', 'km'],
  rain_mm: ['mm', 'in', 'cm'],
  longitude: ['E', 'W'],
};

/** The units a column of ours may come in, ours first; none when it has no unit. */
export function unitsOf(column: string): readonly Unit[] {
  return choices[column] ?? [];
}

const words: Readonly<Record<Unit, readonly string[]>> = {
  C: ['c', 'degc', 'celsius', 'centigrade', 'centigrados'],
  F: ['f', 'degf', 'fahrenheit'],
  m: ['m', 'metre', 'metres', 'meter', 'meters', 'metro', 'metros'],
  ft: ['ft', 'feet', 'foot', 'pie', 'pies'],
  yd: ['yd', 'yard', 'yards', 'yardas'],
  km: ['km', 'kilometre', 'kilometres', 'kilometer', 'kilometers', 'kilometros'],
  mm: ['mm', 'millimetre', 'millimetres', 'millimeters', 'milimetros'],
  in: ['in', 'inch', 'inches', 'pulgada', 'pulgadas'],
  cm: ['cm', 'centimetre', 'centimetres', 'centimeters', 'centimetros'],
  E: ['e', 'east', 'este'],
  W: ['w', 'west', 'oeste'],
};

/** How a unit is named to a person. */
export function unitText(unit: Unit): string {
  const names: Readonly<Record<Unit, string>> = {
    C: 'degrees Celsius',
    F: 'degrees Fahrenheit',
    m: 'metres',
    ft: 'feet',
    yd: 'yards',
    km: 'kilometres',
    mm: 'millimetres',
    in: 'inches',
    cm: 'centimetres',
    E: 'degrees east',
    W: 'degrees west',
  };
  return names[unit];
}

/** The unit a heading or a cell names: `Temp (°F)`, `shore_m`, `12 ft`, `0.5"`. */
export function unitNamed(text: string, among: readonly Unit[]): Unit | null {
  if (/\d\s*(''|"|”)\s*$/.test(text) && among.includes('in')) return 'in';
  if (/\d\s*('|’)\s*$/.test(text) && among.includes('ft')) return 'ft';
  const said = plainText(text.replace(/(?<=\d)(?=\p{L})/gu, ' ')).split(' ');
  // The last word that names one counts: `rain in mm`.
  for (const word of said.reverse()) {
    const unit = among.find((candidate) => words[candidate].includes(word));
    if (unit !== undefined) return unit;
  }
  return null;
}

/** What is known of the unit of a column; `several` has to be asked. */
export type UnitTold =
  | { readonly told: 'no matter' }
  | { readonly told: 'one'; readonly unit: Unit }
  | { readonly told: 'several' };

/** No sand or air is this hot or this cold by the other scale (G). */
const COLDEST_SUMMER_F = 55;
const HOTTEST_C = 50;
/** More rain than this in inches falls on no beach in a day; 1.8 m is the record of a day (from memory). */
const MOST_RAIN_IN = 72;

/** The unit of the values of one of our columns: by the heading, else by what the values can be. */
export function tellUnit(column: string, heading: string, numbers: readonly number[]): UnitTold {
  const among = unitsOf(column);
  const [ours] = among;
  if (ours === undefined || numbers.length === 0) return { told: 'no matter' };
  const named = unitNamed(heading, among);
  if (named !== null) return { told: 'one', unit: named };
  // A column may be longer than a function takes arguments.
  const least = numbers.reduce((low, value) => Math.min(low, value), Infinity);
  const most = numbers.reduce((high, value) => Math.max(high, value), -Infinity);
  if (column === 'longitude') return { told: 'one', unit: 'E' };
  if (ours === 'C') {
    if (most <= HOTTEST_C && least < COLDEST_SUMMER_F) return { told: 'one', unit: 'C' };
    if (least >= COLDEST_SUMMER_F && most > HOTTEST_C) return { told: 'one', unit: 'F' };
    return { told: 'several' };
  }
  if (least === 0 && most === 0) return { told: 'no matter' };
  if (ours === 'mm' && most > MOST_RAIN_IN) return { told: 'one', unit: 'mm' };
  return { told: 'several' };
}

/** Exact: 1 ft = 0.3048 m, 1 in = 25.4 mm (international foot and inch of 1959). */
const factors: Readonly<Record<Unit, number>> = {
  C: 1,
  F: 5 / 9,
  m: 1,
  ft: foot_m,
  yd: 0.9144,
  km: 1000,
  mm: 1,
  in: 25.4,
  cm: 10,
  E: 1,
  W: -1,
};

/** A number in our unit, as text: to four decimals where it had to be reckoned. */
export function inOurUnit(number: string, unit: Unit): string {
  if (factors[unit] === 1) return number;
  const value = (Number(number) - (unit === 'F' ? 32 : 0)) * factors[unit];
  return String(unit === 'W' ? value + 0 : Math.round(value * 1e4) / 1e4 + 0);
}

/** A number and the unit written behind it, one of `among`; null when it is no such text. */
export function numberWithUnit(
  text: string,
  among: readonly Unit[],
  comma: 'decimal' | 'thousands',
): { readonly number: string; readonly unit: Unit } | null {
  const parts = /^([+-]?[\d.,]+)\s*([°º]?\s*\p{L}+\.?|''|"|”|'|’)$/u.exec(text.trim());
  const number = plainNumber(parts?.[1] ?? '', comma);
  const unit = number === null ? null : unitNamed(text.trim(), among);
  return number === null || unit === null ? null : { number, unit };
}
