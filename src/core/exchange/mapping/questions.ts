import { unguarded } from '../csv/guard.ts';
import { type DateOrder, type OrderReading, tellOrder } from './date-order.ts';
import { valuesOf } from './guess-mapping.ts';
import { type ColumnMapping, type Mapping, columnKeys, wordChosen } from './mapping.ts';
import { type Comma, plainNumber, tellComma } from './number-style.ts';
import { plainText, headingWords } from './plain-words.ts';
import type { Sheet } from './sheet.ts';
import { type Target, targetsOf } from './target.ts';
import { type Unit, tellUnit, unitsOf } from './units.ts';
import { type When, noTime, readWhen } from './when-text.ts';
import { wordMeant } from './words.ts';

/** A word of a column that is none of ours, and how often it stands there. */
export interface UnknownWord {
  readonly text: string;
  readonly times: number;
}

/** What the sheet alone cannot tell; `answer` is what was said last, null = not yet. */
export type Question =
  | {
      readonly ask: 'order';
      readonly index: number;
      readonly example: string;
      readonly readings: readonly OrderReading[];
      readonly answer: DateOrder | null;
    }
  | {
      readonly ask: 'unit';
      readonly index: number;
      readonly example: string;
      readonly units: readonly Unit[];
      readonly answer: Unit | null;
    }
  | {
      readonly ask: 'comma';
      readonly index: number;
      readonly example: string;
      readonly answer: Comma | null;
    }
  | {
      readonly ask: 'words';
      readonly index: number;
      readonly unknown: readonly UnknownWord[];
      readonly words: readonly string[];
      /** By plain text; a word without an entry is not answered yet. */
      readonly answer: Readonly<Record<string, string>>;
    }
  | {
      /** Whether 01:30 beside a date is of that date, or of the night of that date. */
      readonly ask: 'small hours';
      readonly date: string;
      readonly clock: string;
      readonly answer: Mapping['smallHours'] | null;
    }
  | {
      /** The time of day of visits that have none. */
      readonly ask: 'clock';
      readonly rows: number;
      readonly answer: Mapping['clock'] | null;
    };

/** How one column of a sheet is read once the questions about it are answered. */
export interface ColumnReading {
  readonly index: number;
  readonly target: Target;
  readonly order: DateOrder;
  readonly unit: Unit | null;
  readonly comma: Comma;
  readonly words: Readonly<Record<string, string>>;
  /** Not all is answered: its cells stay as they are. */
  readonly isOpen: boolean;
}

export interface SettledMapping {
  readonly columns: readonly ColumnReading[];
  readonly questions: readonly Question[];
  /** Columns without which no row says anything, and which no column of the sheet is. */
  readonly missing: readonly string[];
}

/** Whether a question still waits for its answer. */
export function isOpen(question: Question): boolean {
  if (question.ask !== 'words') return question.answer === null;
  return question.unknown.some(({ text }) => wordChosen(question.answer, text) === undefined);
}

/** Whether the cells of a column still wait for an answer. */
export function waitsForAnswer(column: ColumnReading, questions: readonly Question[]): boolean {
  return questions.some((question) => {
    if (!isOpen(question)) return false;
    const aboutTimes = question.ask === 'small hours' || question.ask === 'clock';
    return aboutTimes ? column.target.column.name === 'time' : question.index === column.index;
  });
}

/** What is known of each mapped column from its values and from the answers, and what is to be asked. */
export function settle(sheet: Sheet, mapping: Mapping): SettledMapping {
  if (mapping.table === null) return { columns: [], questions: [], missing: [] };
  const targets = targetsOf(mapping.table);
  const keys = columnKeys(sheet.header);
  const questions: Question[] = [];
  const columns: ColumnReading[] = [];
  keys.forEach((key, index) => {
    const column = mapping.columns[key];
    const target = targets.find(({ column: { name } }) => name === column?.to);
    if (column === undefined || target === undefined) return;
    const settled = settleColumn(sheet, index, target, column);
    columns.push(settled.reading);
    questions.push(...settled.questions);
  });
  if (mapping.table === 'visits') questions.push(...aboutTimes(sheet, mapping, columns));
  const missing = targets
    .filter(({ column }) => column.required === true)
    .map(({ column }) => column.name)
    .filter((name) => !columns.some(({ target }) => target.column.name === name));
  return { columns, questions, missing };
}

function settleColumn(
  sheet: Sheet,
  index: number,
  target: Target,
  mapping: ColumnMapping,
): { readonly reading: ColumnReading; readonly questions: readonly Question[] } {
  const values = valuesOf(sheet, index);
  const questions: Question[] = [];
  let order: DateOrder | null = 'day first';
  let comma: Comma | null = 'thousands';
  let unit: Unit | null = null;
  switch (target.kind) {
    case 'date':
    case 'time': {
      const told = tellOrder(values);
      if (told.told === 'one') order = told.order;
      if (told.told === 'several') {
        // An answer kept from another sheet counts only if these values allow it.
        const allowed = told.readings.some((reading) => reading.order === mapping.order);
        order = allowed ? (mapping.order ?? null) : null;
        questions.push({ ask: 'order', index, ...told, answer: order });
      }
      break;
    }
    case 'number':
    case 'position': {
      const told = tellComma(values);
      if (told.told === 'one') comma = told.comma;
      if (told.told === 'several') {
        comma = mapping.comma ?? null;
        questions.push({ ask: 'comma', index, example: told.example, answer: comma });
      }
      const numbers = values
        .map((text) => plainNumber(text, comma ?? 'decimal'))
        .filter((text) => text !== null);
      const { name } = target.column;
      const unitTold = tellUnit(name, sheet.header[index] ?? '', numbers.map(Number));
      const units = unitsOf(name);
      if (unitTold.told === 'one') unit = mapping.unit ?? unitTold.unit;
      else if (unitTold.told === 'no matter') unit = units[0] ?? null;
      else {
        unit = mapping.unit ?? null;
        questions.push({ ask: 'unit', index, example: numbers[0] ?? '', units, answer: unit });
        if (unit === null) comma = null;
      }
      break;
    }
    case 'word': {
      const unknown = unknownWords(values, target);
      const { words } = target.list;
      if (unknown.length > 0) {
        questions.push({ ask: 'words', index, unknown, words, answer: mapping.words });
      }
      break;
    }
    case 'clock':
    case 'name':
    case 'as it is':
      break;
  }
  const reading: ColumnReading = {
    index,
    target,
    order: order ?? 'day first',
    unit,
    comma: comma ?? 'thousands',
    words: mapping.words,
    isOpen: order === null || comma === null,
  };
  return { reading, questions };
}

function unknownWords(
  values: readonly string[],
  target: Extract<Target, { kind: 'word' }>,
): readonly UnknownWord[] {
  const times = new Map<string, UnknownWord>();
  for (const text of values) {
    if (wordMeant(text, target.list) !== null) continue;
    const plain = plainText(text);
    times.set(plain, {
      text: times.get(plain)?.text ?? text,
      times: (times.get(plain)?.times ?? 0) + 1,
    });
  }
  return [...times.values()].sort((a, b) => b.times - a.times);
}

/** Hours of the morning in which people still sit, and in which a date beside them is unclear (G). */
const SMALL_HOURS_END = '05:00';
const NIGHT_WORDS = new Set(['night', 'noche']);

function aboutTimes(
  sheet: Sheet,
  mapping: Mapping,
  columns: readonly ColumnReading[],
): readonly Question[] {
  const times = columns.filter(({ target }) => target.column.name === 'time');
  const starts = columns.filter(({ target }) => target.column.name === 'watched_from');
  if (times.length === 0) return [];
  const isNight = times.some(({ index }) =>
    headingWords(sheet.header[index] ?? '').some((word) => NIGHT_WORDS.has(word)),
  );
  const end = isNight ? '12:00' : SMALL_HOURS_END;
  const questions: Question[] = [];
  let without = 0;
  let small: { date: string; clock: string } | null = null;
  for (const { cells } of sheet.rows) {
    const whenIn = ({ index, order }: ColumnReading): When =>
      readWhen(unguarded(cells[index] ?? ''), order) ?? noTime;
    const parts = times.map(whenIn);
    const isWhole = parts.some(
      ({ date, clock, instant }) => instant !== null || (date !== null && clock !== null),
    );
    const date = parts.find((part) => part.date !== null)?.date ?? null;
    const start = starts.map(whenIn).find((when) => when !== noTime) ?? noTime;
    if (isWhole || date === null || start.instant !== null) continue;
    const clock = parts.find((part) => part.clock !== null)?.clock ?? start.clock;
    if (clock === null) without++;
    else if (clock < end && start.date === null) small ??= { date, clock };
  }
  if (small !== null) {
    questions.push({ ask: 'small hours', ...small, answer: mapping.smallHours ?? null });
  }
  if (without > 0) questions.push({ ask: 'clock', rows: without, answer: mapping.clock ?? null });
  return questions;
}
