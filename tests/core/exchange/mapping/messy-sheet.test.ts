import { describe, expect, test } from 'vitest';
import { applyMapping } from '../../../../src/core/exchange/mapping/apply-mapping.ts';
import { guessMapping } from '../../../../src/core/exchange/mapping/guess-mapping.ts';
import { joinSheets } from '../../../../src/core/exchange/mapping/join-sheets.ts';
import type { Mapping } from '../../../../src/core/exchange/mapping/mapping.ts';
import { isOpen, settle } from '../../../../src/core/exchange/mapping/questions.ts';
import { type Sheet, readSheet } from '../../../../src/core/exchange/mapping/sheet.ts';
import { readSeasonFolder } from '../../../../src/core/exchange/season-folder/read-season-folder.ts';
import { importer } from '../../../builders/season-files.ts';

function sheet(text: string, name = 'datos.csv'): Sheet {
  const read = readSheet(name, new TextEncoder().encode(text));
  if (read === null) throw new Error('no table');
  return read;
}

/** What each heading became, as `heading -> column`. */
function became(read: Sheet): Record<string, string | null> {
  const { columns } = guessMapping(read).mapping;
  return Object.fromEntries(
    Object.entries(columns).map(([, { to }], index) => [read.header[index]!, to]),
  );
}

/** The table as rows of cells, headings first. */
function table(read: Sheet, mapping: Mapping): readonly (readonly string[])[] {
  const applied = applyMapping(read, mapping)!;
  return [applied.columns.map(({ name }) => name), ...applied.rows.map(({ cells }) => cells)];
}

const nests = `Playa Norte;;;;;;
Temporada 2026;;;;;;
Nido;Especie;Fecha de puesta;Sector;Distancia (m);Huevos;Reubicado;Color de estaca
N-1;Tortuga boba;03/04/2026;Norte;120,5;98;Sí;roja
N-2;Tortuga verde;05/04/2026;Norte;1.200,5;110;no;azul
N-3;Cc;s/d;Sur;88;;x;
`;

describe('a nest list in Spanish with titles above it', () => {
  const read = sheet(nests);
  const guess = guessMapping(read);

  test('has its headings found, and its rows numbered as the person sees them', () => {
    expect(read.header_row).toBe(3);
    expect(read.rows.map(({ row }) => row)).toEqual([4, 5, 6]);
    expect(read.above).toHaveLength(2);
  });

  test('is known for nests, each column for what it is', () => {
    expect(guess.mapping.table).toBe('nests');
    expect(became(read)).toEqual({
      Nido: 'nest',
      Especie: 'species',
      'Fecha de puesta': 'lay_night',
      Sector: 'zone',
      'Distancia (m)': 'shore_m',
      Huevos: 'clutch',
      Reubicado: 'relocated',
      'Color de estaca': null,
    });
  });

  test('is asked for the order of its dates, for every one fits both', () => {
    const { questions } = settle(read, guess.mapping);
    expect(questions).toEqual([
      {
        ask: 'order',
        index: 2,
        told: 'several',
        example: '03/04/2026',
        readings: [
          { order: 'day first', date: '2026-04-03' },
          { order: 'month first', date: '2026-03-04' },
        ],
        answer: null,
      },
    ]);
  });

  test('comes out in our words once answered, its own column carried along, each change told', () => {
    const columns = { ...guess.mapping.columns };
    columns['fecha de puesta.'] = { ...columns['fecha de puesta.']!, order: 'day first' };
    const mapping: Mapping = { ...guess.mapping, columns };
    expect(settle(read, mapping).questions.filter(isOpen)).toEqual([]);
    expect(table(read, mapping)).toEqual([
      ['nest', 'species', 'lay_night', 'zone', 'shore_m', 'clutch', 'relocated', 'Color de estaca'],
      ['N-1', 'Caretta caretta', '2026-04-03', 'Norte', '120.5', '98', 'yes', 'roja'],
      ['N-2', 'Chelonia mydas', '2026-04-05', 'Norte', '1200.5', '110', 'no', 'azul'],
      ['N-3', 'Caretta caretta', '', 'Sur', '88', '', 'yes', ''],
    ]);
    expect(applyMapping(read, mapping)!.changes.map(({ message }) => message)).toEqual([
      '2 rows above the headings not taken: Playa Norte / Temporada 2026',
      '03/04/2026 read as 2026-04-03, and likewise 1 more.',
      '“Tortuga boba” read as Caretta caretta.',
      '120,5 read as 120.5, and likewise 1 more.',
      '“Sí” read as yes.',
      '“Tortuga verde” read as Chelonia mydas.',
      '“s/d” read as blank: not known.',
      '“Cc” read as Caretta caretta.',
      '“x” read as yes.',
    ]);
  });
});

const visits = `Nido,Fecha,Hora,Observador,Superficie,Sonido,Inicio,Fin,Crías
N-1,15/07/2026,21:30,Ana,hundimiento,silencio,,,
N-1,16/07/2026,9:45 p. m.,Ana,colapsado,cascada,20:30,1:15,0
N-2,16/07/2026,0:20,Luis,medio raro,silencio,,,
N-9,17/07/2026,21:00,Luis,lisa,silencio,,,
`;

describe('notes of visits with date and time apart', () => {
  const read = sheet(visits);
  const guess = guessMapping(read);

  test('have both columns taken for the one time', () => {
    expect(guess.mapping.table).toBe('visits');
    expect(became(read)).toEqual({
      Nido: 'nest',
      Fecha: 'time',
      Hora: 'time',
      Observador: 'observer',
      Superficie: 'surface',
      Sonido: 'sound',
      Inicio: 'watched_from',
      Fin: 'watched_to',
      Crías: 'emerged',
    });
  });

  test('are asked what 00:20 belongs to, and for words nobody can be sure of, but not for the dates', () => {
    expect(settle(read, guess.mapping).questions).toMatchObject([
      { ask: 'words', unknown: [{ text: 'medio raro', times: 1 }], answer: {} },
      { ask: 'small hours', date: '2026-07-16', clock: '00:20', answer: null },
    ]);
  });

  test('join date and time; a sit past midnight ends on the next date', () => {
    const columns = { ...guess.mapping.columns };
    columns['superficie.'] = { to: 'surface', words: { 'medio raro': 'dip' } };
    const mapping: Mapping = { ...guess.mapping, columns, smallHours: 'night' };
    const [header, ...rows] = table(read, mapping);
    const at = (name: string): readonly string[] =>
      rows.map((cells) => cells[header!.indexOf(name)]!);
    expect(at('time')).toEqual([
      '2026-07-15T21:30',
      '2026-07-16T21:45',
      '2026-07-17T00:20',
      '2026-07-17T21:00',
    ]);
    expect(at('watched_from')).toEqual(['', '2026-07-16T20:30', '', '']);
    expect(at('watched_to')).toEqual(['', '2026-07-17T01:15', '', '']);
    expect(at('surface')).toEqual(['depression', 'caved', 'dip', 'smooth']);
    expect(at('Superficie (as found)')).toEqual(['', '', 'medio raro', '']);
  });

  test('have their problems told in their own rows and headings', () => {
    const mapping: Mapping = { ...guess.mapping, smallHours: 'calendar' };
    const nestSheet = sheet('Nido;Fecha de puesta\nN-1;2026-05-20\nN-2;2026-05-21\n', 'nidos.csv');
    const applied = [
      applyMapping(nestSheet, guessMapping(nestSheet).mapping)!,
      applyMapping(read, mapping)!,
    ];
    const joined = joinSheets(applied);
    const season = readSeasonFolder(joined.files, importer);
    expect(season.counts).toEqual({ nests: { rows: 2, taken: 2 }, visits: { rows: 4, taken: 2 } });
    expect(
      joined.tell(season.problems).map(({ file, row, column }) => ({ file, row, column })),
    ).toEqual([
      { file: 'datos.csv', row: 4, column: 'Superficie' },
      { file: 'datos.csv', row: 5, column: 'Nido' },
    ]);
  });
});

describe('a sheet made to trip the matching', () => {
  test('words that every object knows, such as constructor, are asked about like any other', () => {
    const read = sheet(
      'Nido;Fecha y hora;Sonido\nN-1;15/07/2026 21:30;constructor\n',
      'rondas.csv',
    );
    const { mapping } = guessMapping(read);
    const words = settle(read, mapping).questions.find(({ ask }) => ask === 'words');
    expect(words !== undefined && isOpen(words)).toBe(true);
    expect(table(read, mapping)[1]).toContain('constructor');
  });

  test('of very many columns the first are read, and what is left out is told', () => {
    const wide = Array.from({ length: 20_000 }, (_, at) => `x${at}`);
    const read = sheet(`Nido;${wide.join(';')}\nN-1;${wide.join(';')}\n`, 'ancha.csv');
    expect(read.header).toHaveLength(500);
    expect(read.problems.map(({ row, message }) => [row, message.slice(0, 58)])).toEqual([
      [1, 'there are 20001 columns; at most 500 are read, and what st'],
    ]);
    expect(read.rows).toHaveLength(1);
  });
});

describe('two sheets of one table', () => {
  test('a nest that could not be taken is named by its row in its own sheet', () => {
    const nidos = sheet('Nidos de mayo;\nNido;Huevos\nN-1;muchos\n', 'nidos.csv');
    const rondas = sheet('Nido;Fecha y hora\nN-1;15/07/2026 21:30\n', 'rondas.csv');
    const applied = [nidos, rondas].map((read) => applyMapping(read, guessMapping(read).mapping)!);
    const joined = joinSheets(applied);
    const told = joined.tell(readSeasonFolder(joined.files, importer).problems);
    expect(told.map(({ file, row }) => ({ file, row }))).toEqual([
      { file: 'nidos.csv', row: 3 },
      { file: 'rondas.csv', row: 2 },
    ]);
    expect(told[1]?.message).toContain('(nidos.csv row 3)');
  });

  test('become one file, and a second row of a nest is told by the rows of its own sheet', () => {
    const one = sheet('Nido;Huevos\nN-1;100\n', 'mayo');
    const two = sheet('Huevos;Nido\n90;N-2\n80;N-1\n', 'junio');
    const applied = [one, two].map((read) => applyMapping(read, guessMapping(read).mapping)!);
    const joined = joinSheets(applied);
    const season = readSeasonFolder(joined.files, importer);
    const [problem] = joined.tell(season.problems);
    expect(problem).toMatchObject({ file: 'junio', row: 3, column: 'Nido' });
    expect(problem?.message).toContain('rows 2 of mayo and 3 both hold it');
  });
});
