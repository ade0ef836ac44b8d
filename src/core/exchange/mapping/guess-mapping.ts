import { TableName } from '../../domain/event.ts';
import { unguarded } from '../csv/guard.ts';
import { readClock } from './clock-text.ts';
import { headingFits, isNameOf } from './headings.ts';
import { type ColumnMapping, type Mapping, columnKeys } from './mapping.ts';
import { plainNumber } from './number-style.ts';
import { plainDegrees } from './position-text.ts';
import type { Sheet } from './sheet.ts';
import { type Target, targetsOf } from './target.ts';
import { numberWithUnit, unitsOf } from './units.ts';
import { readWhen } from './when-text.ts';
import { saysNothing, wordMeant } from './words.ts';

/** How sure a guess is; what is not sure is marked, to be looked at. */
export type Sureness = 'sure' | 'likely' | 'unsure';

/** What a sheet seems to be. Nothing of it is taken before a person has seen it. */
export interface Guess {
  readonly mapping: Mapping;
  readonly table: Sureness;
  /** By column key. */
  readonly columns: Readonly<Record<string, Sureness>>;
}

/** One column of ours that one of the sheet may be, from 0 to 1. */
interface Fit {
  readonly index: number;
  readonly target: Target;
  readonly score: number;
}

const LOOKED_AT = 300;
/** No heading, date or number is longer; what is, is a remark, and its beginning will do. */
const LETTERS_LOOKED_AT = 200;
/** Below this nothing is guessed. */
const LEAST = 0.35;
const SURE = 0.8;
const LIKELY = 0.55;

/** Which of our tables a sheet is, and which of our columns each of its columns. */
export function guessMapping(sheet: Sheet): Guess {
  const columns = valuesLookedAt(sheet);
  const ranked = TableName.options
    .map((table) => ({ table, ...rate(sheet, table, columns) }))
    .sort((a, b) => b.score - a.score);
  const [best, second] = ranked;
  if (best === undefined || best.fits.length < 2 || !best.complete) {
    const closest =
      best !== undefined && best.fits.length >= 2 && best.score > 1 ? best.table : null;
    return guessOf(sheet, closest, best?.fits ?? [], 'unsure');
  }
  const margin = best.score - (second?.complete === true ? second.score : 0);
  return guessOf(
    sheet,
    best.table,
    best.fits,
    best.score > 1.5 && margin > 0.4 ? 'sure' : 'likely',
  );
}

/** The same for a table that the person has chosen. */
export function guessColumns(sheet: Sheet, table: TableName): Guess {
  const columns = valuesLookedAt(sheet);
  return guessOf(sheet, table, rate(sheet, table, columns).fits, 'sure');
}

/** What the cells of a column hold, without those that hold nothing. */
export function valuesOf(sheet: Sheet, index: number): readonly string[] {
  return sheet.rows.flatMap(({ cells }) => {
    const text = unguarded(cells[index] ?? '').trim();
    return text === '' || saysNothing(text) ? [] : [text];
  });
}

function valuesLookedAt(sheet: Sheet): readonly (readonly string[])[] {
  return sheet.header.map((_, index) =>
    valuesOf(sheet, index)
      .slice(0, LOOKED_AT)
      .map((text) => text.slice(0, LETTERS_LOOKED_AT)),
  );
}

function guessOf(
  sheet: Sheet,
  table: TableName | null,
  fits: readonly Fit[],
  sureness: Sureness,
): Guess {
  const keys = columnKeys(sheet.header);
  const columns: Record<string, ColumnMapping> = {};
  const sure: Record<string, Sureness> = {};
  keys.forEach((key, at) => {
    const fit = table === null ? undefined : fits.find(({ index }) => index === at);
    columns[key] = { to: fit?.target.column.name ?? null, words: {} };
    const score = fit?.score ?? 1;
    sure[key] = score >= SURE ? 'sure' : score >= LIKELY ? 'likely' : 'unsure';
  });
  return { mapping: { table, columns }, table: sureness, columns: sure };
}

function rate(
  sheet: Sheet,
  table: TableName,
  columns: readonly (readonly string[])[],
): { readonly fits: readonly Fit[]; readonly score: number; readonly complete: boolean } {
  const targets = targetsOf(table);
  const possible: Fit[] = [];
  columns.forEach((values, index) => {
    const heading = sheet.header[index] ?? '';
    for (const target of targets) {
      const headed = headingFits(heading.slice(0, LETTERS_LOOKED_AT), table, target.column.name);
      const content = contentFits(values, target);
      const score =
        headed > 0 ? headed * (0.4 + 0.6 * content) : byContent(values, target, content);
      if (score >= LEAST) possible.push({ index, target, score });
    }
  });
  possible.sort((a, b) => b.score - a.score);
  const fits: Fit[] = [];
  for (const fit of possible) {
    if (fits.some(({ index }) => index === fit.index)) continue;
    const rivals = fits.filter(({ target }) => target === fit.target);
    if (
      rivals.every(({ index }) => completes(columns[index] ?? [], columns[fit.index] ?? [], fit))
    ) {
      fits.push(fit);
    }
  }
  const missing = targets.filter(
    ({ column }) =>
      column.required === true && !fits.some(({ target }) => target.column === column),
  );
  const named = isNameOf(sheet.name, table) ? 1 : 0;
  const score = fits.reduce((sum, fit) => sum + fit.score, 0) + named - 1.5 * missing.length;
  return { fits, score, complete: missing.length === 0 };
}

/** Whether one column holds the dates and the other the times of day of the one time. */
function completes(values: readonly string[], others: readonly string[], { target }: Fit): boolean {
  if (target.kind !== 'time' || target.column.name !== 'time') return false;
  return (isClocks(values) && isDates(others)) || (isDates(values) && isClocks(others));
}

const whenOf = (text: string): ReturnType<typeof readWhen> =>
  readWhen(text, 'day first') ?? readWhen(text, 'month first');
const share = (values: readonly string[], holds: (text: string) => boolean): number =>
  values.length === 0 ? 0 : values.filter(holds).length / values.length;
const isClocks = (values: readonly string[]): boolean =>
  share(values, (text) => readClock(text) !== null) > 0.5;
const isDates = (values: readonly string[]): boolean =>
  share(values, (text) => {
    const when = whenOf(text);
    return when !== null && when.date !== null && when.clock === null;
  }) > 0.5;

/** The share of values that a column of ours can hold; a column without values speaks against none. */
function contentFits(values: readonly string[], target: Target): number {
  if (values.length === 0) return 1;
  switch (target.kind) {
    case 'date':
      return share(values, (text) => {
        const when = whenOf(text);
        return when !== null && (when.date !== null || when.instant !== null);
      });
    case 'time':
      return share(values, (text) => whenOf(text) !== null);
    case 'clock':
      return share(values, (text) => readClock(text) !== null);
    case 'word': {
      const known = share(values, (text) => wordMeant(text, target.list) !== null);
      // A few words that come again and again may be a list in other words: it is asked.
      const few = new Set(values).size <= Math.min(8, values.length);
      const letters = share(values, (text) => /\p{L}/u.test(text)) > 0.5;
      return few && letters ? Math.max(known, 0.6) : known;
    }
    case 'number':
      return share(values, (text) => holdsNumber(text, target));
    case 'position':
      return share(values, (text) => plainDegrees(text) !== null || holdsNumber(text, target));
    case 'name':
    case 'as it is':
      return share(values, (text) => !/^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}/.test(text));
  }
}

function holdsNumber(text: string, { column }: Target): boolean {
  const units = unitsOf(column.name);
  const number = plainNumber(text, 'thousands') ?? plainNumber(text, 'decimal');
  if (number === null) return numberWithUnit(text, units, 'decimal') !== null;
  // Where it may come in another unit its size says nothing yet.
  return units.length > 1 || column.cell.read(number, { zone: 'UTC', decimalComma: false }).ok;
}

/** What a column seems to be by its content alone, where its heading says nothing. */
function byContent(values: readonly string[], target: Target, content: number): number {
  if (values.length < 2 || content < 0.8) return 0;
  const { column, kind } = target;
  switch (kind) {
    case 'word': {
      if (target.list.words.includes('yes')) return 0;
      const known = share(
        values,
        (text) => wordMeant(text, target.list) !== null && /\p{L}/u.test(text),
      );
      return known >= 0.9 ? (column.name === 'species' ? 0.7 : 0.45) : 0;
    }
    case 'date':
      return column.required === true || column.name === 'lay_night' ? 0.45 : 0;
    case 'time':
      return column.name === 'time' && share(values, (text) => /\d[:/h-]/.test(text)) > 0.8
        ? 0.45
        : 0;
    case 'position': {
      if (share(values, (text) => /[.,]\d{3,}$|[°º]/.test(text)) < 0.8) return 0;
      // Nests lie within 50 degrees of the equator; most coasts lie farther from Greenwich (G).
      const far = share(values, (text) => Math.abs(Number.parseFloat(text)) > 50) > 0.5;
      return far === (column.name === 'longitude') ? 0.42 : 0;
    }
    case 'clock':
    case 'number':
    case 'name':
    case 'as it is':
      return 0;
  }
}
