import { describe, expect, test } from 'vitest';
import { findSheets } from '../../../../src/core/exchange/mapping/find-sheets.ts';
import { files } from '../../../builders/season-files.ts';

const found = (contents: Readonly<Record<string, string>>) => {
  const { sheets, rest } = findSheets(files(contents));
  return { sheets: sheets.map(({ sheet }) => sheet.name), rest: [...rest.keys()] };
};

describe('files that have to be matched', () => {
  test('are none in a season folder, whatever lies beside its tables', () => {
    const folder = {
      'season/nests.csv': 'nest,lay_night\nN-1,2026-05-20\n',
      'season/visits.csv': 'nest,time\nN-1,2026-07-20T21:00\n',
      'season/README.txt': 'Notes, by hand\nof the season, in words\n',
      'season/old/nests copy.csv': 'nest,lay_night\nN-1,2026-05-20\n',
      'season/programme.json': '{}',
    };
    expect(found(folder)).toEqual({ sheets: [], rest: Object.keys(folder) });
  });

  test('are those in other words, a table of ours among them whose columns are named otherwise', () => {
    expect(
      found({
        'nests.csv': 'Nido,Fecha de puesta\nN-1,20/05/2026\n',
        'rondas.csv': 'Nido,Fecha y hora,Superficie\nN-1,20/07/2026 21:00,liso\n',
      }),
    ).toEqual({ sheets: ['nests.csv', 'rondas.csv'], rest: [] });
  });

  test('are tables of ours whose dates are written in another way', () => {
    expect(found({ 'nests.csv': 'nest,lay_night\nN-1,20/05/2026\nN-2,21/05/2026\n' })).toEqual({
      sheets: ['nests.csv'],
      rest: [],
    });
    expect(found({ 'nests.csv': 'nest,lay_night\nN-1,20/05/2026\nN-2,2026-05-21\n' })).toEqual({
      sheets: [],
      rest: ['nests.csv'],
    });
  });

  test('come with a table of ours only when they surely are another one', () => {
    expect(
      found({
        'nests.csv': 'nest,lay_night\nN-1,2026-05-20\n',
        'rondas.csv': 'Nido,Fecha y hora,Superficie,Sonido\nN-1,20/07/2026 21:00,liso,silencio\n',
        'gastos.csv': 'Concepto,Importe\ngasolina,20\n',
      }),
    ).toEqual({ sheets: ['rondas.csv'], rest: ['nests.csv', 'gastos.csv'] });
  });

  test('are named after workbook and sheet', () => {
    expect(found({ 'libro.xlsx/Mayo.csv': 'Nido,Huevos\nN-1,100\n' }).sheets).toEqual([
      'libro.xlsx/Mayo',
    ]);
  });
});
