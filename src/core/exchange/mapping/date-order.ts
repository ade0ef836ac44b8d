import { type Night, formatNight, parseNight } from '../../domain/night.ts';
import { plainText } from './plain-words.ts';

/** In which order the parts of a date in figures stand. */
export const dateOrders = ['day first', 'month first', 'year first'] as const;
export type DateOrder = (typeof dateOrders)[number];

const IN_FIGURES = /^(\d{1,2})\s*[-/. ]\s*(\d{1,2})\s*[-/. ]\s*(\d{4}|\d{2})$/;
const YEAR_FIRST = /^(\d{4})\s*[-/. ]\s*(\d{1,2})\s*[-/. ]\s*(\d{1,2})$/;
const COMPACT = /^((?:19|20)\d{2})(\d{2})(\d{2})$/;
const SERIAL = /^\d{5}$/;
/** 1970-01-01 as spreadsheets count days, from 1899-12-30. */
const SERIAL_OF_EPOCH = 25_569;
/** Days counted by a spreadsheet are taken for dates of this century only. */
const SERIALS = { from: 36_526, to: 73_050 };

/** The first three letters of a month tell it in English and Spanish; September has two ways. */
const months = new Map<string, number>(
  (
    [
      'jan ene',
      'feb',
      'mar',
      'apr abr',
      'may',
      'jun',
      'jul',
      'aug ago',
      'sep set',
      'oct',
      'nov',
      'dec dic',
    ] as const
  ).flatMap((names, index) => names.split(' ').map((name) => [name, index + 1] as const)),
);
const monthNames =
  /^(jan(uary)?|ene(ro)?|feb(ruary|rero)?|mar(ch|zo)?|apr(il)?|abr(il)?|may(o)?|june?|jun(io)?|july?|jul(io)?|aug(ust)?|ago(sto)?|sept?(ember|iembre)?|set(iembre)?|oct(ober|ubre)?|nov(ember|iembre)?|dec(ember)?|dic(iembre)?)$/;
/** Words beside a date that say nothing more: weekdays, "de", "of", the endings of 1st 2nd 3rd. */
const beside =
  /^(de|del|of|the|el|mon(day)?|tue(s(day)?)?|wed(nesday)?|thu(rs(day)?)?|fri(day)?|sat(urday)?|sun(day)?|lun(es)?|mar(tes)?|mie(rcoles)?|jue(ves)?|vie(rnes)?|sab(ado)?|dom(ingo)?)$/;

/** The date a text names, as `2026-04-03`, when its figures stand in `order`; null when it names none. */
export function readDay(text: string, order: DateOrder): string | null {
  const trimmed = text.trim();
  const year = YEAR_FIRST.exec(trimmed) ?? COMPACT.exec(trimmed);
  if (year !== null) return isoDate(Number(year[1]), Number(year[2]), Number(year[3]));
  const figures = IN_FIGURES.exec(trimmed);
  if (figures !== null) return inOrder(figures.slice(1), order);
  if (SERIAL.test(trimmed)) return serialDay(Number(trimmed));
  return inWords(trimmed);
}

function inOrder(parts: readonly string[], order: DateOrder): string | null {
  const [first, second, third] = parts.map(Number) as [number, number, number];
  switch (order) {
    case 'day first':
      return isoDate(fullYear(parts[2] ?? ''), second, first);
    case 'month first':
      return isoDate(fullYear(parts[2] ?? ''), first, second);
    case 'year first':
      return parts[2]?.length === 4 ? null : isoDate(fullYear(parts[0] ?? ''), second, third);
  }
}

/** Two figures of a year are of this century: nobody imports a season of another. */
const fullYear = (text: string): number => Number(text) + (text.length === 4 ? 0 : 2000);

/** The date of a day as spreadsheets count days; null outside this century. */
export function serialDay(serial: number): string | null {
  const day = Math.floor(serial);
  if (day < SERIALS.from || day > SERIALS.to) return null;
  return formatNight((day - SERIAL_OF_EPOCH) as Night);
}

/** `3 de abril de 2026`, `Apr 3, 2026`, `3-abr-26`. */
function inWords(text: string): string | null {
  if (!/[a-z]/i.test(text) || !/\d/.test(text)) return null;
  const numbers: string[] = [];
  let month: number | null = null;
  for (const word of plainText(text).split(' ')) {
    const digits = /^(\d{1,4})(st|nd|rd|th)?$/.exec(word);
    if (digits !== null) numbers.push(digits[1] ?? '');
    // "mar" is a month before it is a Tuesday, unless another month is named.
    else if (monthNames.test(word) && (month === null || !beside.test(word))) {
      if (month !== null && word !== 'mar') return null;
      month = months.get(word.slice(0, 3)) ?? null;
    } else if (!beside.test(word)) return null;
  }
  const [first, second] = numbers;
  if (month === null || numbers.length !== 2 || first === undefined || second === undefined)
    return null;
  return first.length === 4
    ? isoDate(Number(first), month, Number(second))
    : isoDate(fullYear(second), month, Number(first));
}

function isoDate(year: number, month: number, day: number): string | null {
  const two = (part: number): string => String(part).padStart(2, '0');
  const text = `${String(year).padStart(4, '0')}-${two(month)}-${two(day)}`;
  return parseNight(text) === null ? null : text;
}

/** What the values of a column tell of the order of its dates. */
export type OrderTold =
  /** No value depends on it. */
  | { readonly told: 'no matter' }
  | { readonly told: 'one'; readonly order: DateOrder }
  /** It has to be asked: an example, and how each order that fits reads it. */
  | {
      readonly told: 'several';
      readonly example: string;
      readonly readings: readonly OrderReading[];
    };

export interface OrderReading {
  readonly order: DateOrder;
  readonly date: string;
}

const DATE_IN_TEXT = /^\s*\D{0,12}?(\d{1,2}\s*[-/.]\s*\d{1,2}\s*[-/.]\s*(?:\d{4}|\d{2}))(?!\d)/;

/**
 * The order of the dates of a column from all its values. One order is told when every value fits
 * it and at least one fits no other; values that fit several alike, or that speak against each
 * other, tell nothing.
 */
export function tellOrder(texts: readonly string[]): OrderTold {
  const dates = texts
    .map((text) => DATE_IN_TEXT.exec(text)?.[1]?.replace(/\s/g, ''))
    .filter((date) => date !== undefined);
  const parts = dates.map((date) => date.split(/[-/.]/));
  const orders = likelyYearFirst(parts) ? dateOrders : dateOrders.slice(0, 2);
  const only = new Map<DateOrder, number>();
  let example: string | null = null;
  for (const date of new Set(dates)) {
    const readings = readingsOf(date, orders);
    const [first] = readings;
    if (first === undefined) continue;
    if (readings.length === 1) only.set(first.order, (only.get(first.order) ?? 0) + 1);
    else if (readings.some((reading) => reading.date !== first.date)) example ??= date;
  }
  const [sole] = [...only.keys()];
  if (only.size === 1 && sole !== undefined) return { told: 'one', order: sole };
  if (only.size > 1) {
    // Some fit only the one, some only the other: whichever is chosen, the rest is told as wrong.
    const shown = example ?? dates.find((date) => readingsOf(date, orders).length > 0) ?? '';
    const readings = [...only.keys()].map((order) => ({
      order,
      date: readDay(shown, order) ?? 'no date',
    }));
    return { told: 'several', example: shown, readings };
  }
  if (example === null) return { told: 'no matter' };
  return { told: 'several', example, readings: readingsOf(example, orders) };
}

function readingsOf(date: string, orders: readonly DateOrder[]): readonly OrderReading[] {
  return orders.flatMap((order) => {
    const read = readDay(date, order);
    return read === null ? [] : [{ order, date: read }];
  });
}

/** With two figures of a year, 26/07/20 may begin with it: when its first part hardly changes. */
function likelyYearFirst(parts: readonly (readonly string[])[]): boolean {
  if (parts.some((three) => three[2]?.length !== 2)) return false;
  const different = (index: number): number => new Set(parts.map((three) => three[index])).size;
  return different(0) <= 2 && different(2) > different(0);
}
