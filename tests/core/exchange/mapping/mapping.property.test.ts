import fc from 'fast-check';
import { expect, test } from 'vitest';
import { formatNight, asNight } from '../../../../src/core/domain/night.ts';
import { applyMapping } from '../../../../src/core/exchange/mapping/apply-mapping.ts';
import { findSheets } from '../../../../src/core/exchange/mapping/find-sheets.ts';
import { joinSheets } from '../../../../src/core/exchange/mapping/join-sheets.ts';
import { type Mapping, columnKeys } from '../../../../src/core/exchange/mapping/mapping.ts';
import { type Question, isOpen, settle } from '../../../../src/core/exchange/mapping/questions.ts';
import { readSheet, type Sheet } from '../../../../src/core/exchange/mapping/sheet.ts';
import { readSeasonFolder } from '../../../../src/core/exchange/season-folder/read-season-folder.ts';
import type { SeasonEvent } from '../../../../src/core/domain/event.ts';
import { importer, read } from '../../../builders/season-files.ts';

/** A day of 2026, so that both orders of day and month occur. */
const day = fc.integer({ min: 20_454, max: 20_818 }).map((days) => formatNight(asNight(days)));
const tenths = (min: number, max: number): fc.Arbitrary<string> =>
  fc.integer({ min: min * 10, max: max * 10 }).map((value) => String(value / 10));

interface Style {
  readonly order: 'day first' | 'month first';
  readonly mark: '/' | '-' | '.';
  readonly celsius: boolean;
  readonly feet: boolean;
  readonly delimiter: ',' | ';' | '\t';
  readonly spanish: boolean;
  readonly shuffle: number;
}
const style: fc.Arbitrary<Style> = fc.record({
  order: fc.constantFrom('day first', 'month first'),
  mark: fc.constantFrom('/', '-', '.'),
  celsius: fc.boolean(),
  feet: fc.boolean(),
  delimiter: fc.constantFrom(',', ';', '\t'),
  spanish: fc.boolean(),
  shuffle: fc.nat(1000),
});

function dateIn(iso: string, { order, mark }: Style): string {
  const [year, month, dayOfMonth] = iso.split('-') as [string, string, string];
  return (order === 'day first' ? [dayOfMonth, month, year] : [month, dayOfMonth, year]).join(mark);
}

/** Rows laid out by headings, columns turned round, cells parted as the style says. */
function written(
  rows: readonly Readonly<Record<string, string>>[],
  { delimiter, shuffle }: Style,
): string {
  const headings = Object.keys(rows[0]!);
  const at = shuffle % headings.length;
  const turned = [...headings.slice(at), ...headings.slice(0, at)];
  const lines = [turned, ...rows.map((row) => turned.map((heading) => row[heading]!))];
  return lines.map((cells) => `${cells.join(delimiter)}\n`).join('');
}

/** Answers as someone does who knows how the sheet was written; fails on a question nobody expects. */
function answered(sheet: Sheet, mapping: Mapping, style: Style): Mapping {
  const keys = columnKeys(sheet.header);
  const columns = { ...mapping.columns };
  const expected: readonly Question['ask'][] = ['order'];
  for (const question of settle(sheet, mapping).questions) {
    expect(expected).toContain(question.ask);
    if (question.ask !== 'order') continue;
    const key = keys[question.index]!;
    columns[key] = { ...columns[key]!, order: style.order };
  }
  const whole = { ...mapping, columns };
  expect(settle(sheet, whole).questions.filter(isOpen)).toEqual([]);
  return whole;
}

/** The events of a table in other words, without what belongs to the file and not to the rows. */
function eventsOf(text: string, nests: string | null, style: Style): readonly SeasonEvent[] {
  const bytes = new TextEncoder().encode(text);
  const { sheets } = findSheets(new Map([['hoja.csv', bytes]]));
  const { sheet, guess } = sheets[0]!;
  const applied = applyMapping(sheet, answered(sheet, guess.mapping, style))!;
  const joined = joinSheets([applied]);
  const files = new Map(joined.files);
  if (nests !== null) files.set('nests.csv', new TextEncoder().encode(nests));
  const season = readSeasonFolder(files, importer);
  expect(joined.tell(season.problems).filter(({ severity }) => severity === 'error')).toEqual([]);
  return facts(season.events);
}

const facts = (events: readonly SeasonEvent[]): readonly SeasonEvent[] =>
  events.flatMap((event) => {
    if (event.kind === 'table-laid-out') return [];
    const { source: _, ...rest } = event as SeasonEvent & { source?: unknown };
    return [rest];
  });
const csv = (rows: readonly Readonly<Record<string, string>>[]): string =>
  written(rows, { delimiter: ',', shuffle: 0 } as Style);

test('a table of nests in other columns, date orders and units is the same nests', () => {
  const nest = fc.record({
    species: fc.constantFrom('Caretta caretta', 'Chelonia mydas', 'Dermochelys coriacea'),
    lay_night: day,
    shore_m: tenths(1, 3000),
    clutch: fc.integer({ min: 40, max: 160 }).map(String),
    relocated: fc.constantFrom('yes', 'no', ''),
  });
  const yesNo = { yes: 'Sí', no: 'No', '': '' } as Readonly<Record<string, string>>;
  const speciesIn: Readonly<Record<string, string>> = {
    'Caretta caretta': 'boba',
    'Chelonia mydas': 'Tortuga Verde',
    'Dermochelys coriacea': 'laúd',
  };
  fc.assert(
    fc.property(fc.array(nest, { minLength: 3, maxLength: 12 }), style, (rows, style) => {
      const canonical = rows.map((row, index) => ({ nest: `N-${index}`, ...row }));
      const feet = (metres: string): string => (Number(metres) / 0.3048).toFixed(6);
      const other = canonical.map((row) => {
        const length = style.feet ? feet(row.shore_m) : row.shore_m;
        return style.spanish
          ? {
              'N.º de nido': row.nest,
              ESPECIE: speciesIn[row.species]!,
              'Fecha de puesta': dateIn(row.lay_night, style),
              [`Distancia (${style.feet ? 'pies' : 'm'})`]: length,
              Huevos: row.clutch,
              Reubicado: yesNo[row.relocated]!,
            }
          : {
              'Nest ID': row.nest,
              Species: row.species,
              'Date laid': dateIn(row.lay_night, style),
              [`Distance along shore (${style.feet ? 'ft' : 'm'})`]: length,
              'Clutch size': row.clutch,
              Relocated: row.relocated,
            };
      });
      expect(eventsOf(written(other, style), null, style)).toEqual(
        facts(read({ 'nests.csv': csv(canonical) }).events),
      );
    }),
    { numRuns: 60, seed: 8 },
  );
});

test('a table of conditions in other units is the same conditions', () => {
  const values = fc.record({
    sand_c: tenths(24, 35),
    air_c: tenths(18, 34),
    rain_mm: tenths(0, 60),
  });
  fc.assert(
    fc.property(fc.array(values, { minLength: 3, maxLength: 12 }), style, (rows, style) => {
      const canonical = rows.map((row, index) => ({
        date: formatNight(asNight(20_600 + index)),
        ...row,
      }));
      const warm = (celsius: string): string =>
        style.celsius ? celsius : (Number(celsius) * 1.8 + 32).toFixed(2);
      const unit = style.celsius ? '°C' : '°F';
      const other = canonical.map((row) => ({
        Fecha: dateIn(row.date, style),
        [`Temp. arena (${unit})`]: warm(row.sand_c),
        [`Temp. aire (${unit})`]: warm(row.air_c),
        [`Lluvia (${style.feet ? 'pulgadas' : 'mm'})`]: style.feet
          ? (Number(row.rain_mm) / 25.4).toFixed(6)
          : row.rain_mm,
      }));
      const nests = 'nest\nN-1\n';
      expect(eventsOf(written(other, style), nests, style)).toEqual(
        facts(read({ 'nests.csv': nests, 'conditions.csv': csv(canonical) }).events),
      );
    }),
    { numRuns: 60, seed: 8 },
  );
});

test('no text makes the matching of a sheet fail, and no cell of it is lost', () => {
  const cell = fc.oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom(
      '03/04/2026',
      '21:30',
      '0,5',
      '1,200',
      "'=1",
      'Nido',
      'Fecha',
      's/d',
      'x',
      '45383',
    ),
  );
  fc.assert(
    fc.property(fc.array(fc.array(cell, { maxLength: 5 }), { maxLength: 8 }), (rows) => {
      const bytes = new TextEncoder().encode(rows.map((cells) => cells.join(';')).join('\n'));
      for (const { sheet, guess } of findSheets(new Map([['x.csv', bytes]])).sheets) {
        const unread: Mapping = { table: 'visits', columns: {} };
        const kept = applyMapping(sheet, unread)!;
        expect(kept.rows.map(({ cells }) => cells.join('\n'))).toEqual(
          sheet.rows.map(({ cells }) => sheet.header.map((_, at) => cells[at] ?? '').join('\n')),
        );
        const applied = applyMapping(sheet, guess.mapping);
        if (applied !== null) readSeasonFolder(joinSheets([applied]).files, importer);
      }
      readSheet('x.csv', bytes);
    }),
    { numRuns: 300, seed: 8 },
  );
});
