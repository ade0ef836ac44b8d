import { describe, expect, test } from 'vitest';
import { readWorkbook } from '../../../src/edges/files/read-workbook.ts';
import { pickedFiles, readGivenFiles } from '../../../src/edges/files/dropped-files.ts';
import { packZip } from '../../../src/edges/files/pack-zip.ts';
import { workbook } from '../../builders/workbook.ts';

// Truth: workbooks written part by part after ECMA-376-1 in tests/builders/workbook.ts. Days count
// from 1899-12-30 (18.17.4.1, the 1900 date system): 45383 is 2024-04-01, as 25569 is 1970-01-01.

const texts = (files: ReadonlyMap<string, Uint8Array>): Record<string, string> =>
  Object.fromEntries([...files].map(([path, bytes]) => [path, new TextDecoder().decode(bytes)]));

async function read(bytes: Uint8Array, name = 'libro.xlsx') {
  const given = await readWorkbook(name, bytes);
  return given.ok ? texts(given.files) : given.message;
}

describe('a workbook', () => {
  test('gives each sheet that holds something as CSV, rows by their numbers', async () => {
    const book = workbook({
      Mayo: [['Playa Norte'], [], ['Nido', 'Nota', 'Huevos'], ['N-1', 'dice "hola", y más', 98]],
      Vacía: [],
      Junio: [['Nido'], ['N-2']],
    });
    expect(await read(book)).toEqual({
      'libro.xlsx/Mayo.csv': 'Playa Norte,,\n,,\nNido,Nota,Huevos\nN-1,"dice ""hola"", y más",98\n',
      'libro.xlsx/Junio.csv': 'Nido\nN-2\n',
    });
  });

  test('gives dates and times as its cells show them, in whatever time zone the device is', async () => {
    const book = workbook({
      Datos: [
        [
          { serial: 45383, shown: 'date' },
          { serial: 45383.895833333336, shown: 'date and time' },
          { serial: 0.010416666666666666, shown: 'time' },
          { serial: 45383.99999, shown: 'date and time' },
        ],
        ['x', 27.399999999999999, true, 0.1],
      ],
    });
    const zone = process.env['TZ'];
    try {
      for (const tz of ['UTC', 'Pacific/Kiritimati', 'Pacific/Pago_Pago']) {
        process.env['TZ'] = tz;
        expect(await read(book)).toEqual({
          'libro.xlsx/Datos.csv':
            '2024-04-01,2024-04-01T21:30,00:15,2024-04-01T23:59:59\nx,27.4,yes,0.1\n',
        });
      }
    } finally {
      if (zone === undefined) delete process.env['TZ'];
      else process.env['TZ'] = zone;
    }
  });

  test('of many rows is read whole', async () => {
    const rows = Array.from({ length: 5_000 }, (_, row) => [`N-${row}`, row * 1.5, `nota ${row}`]);
    const text = await read(workbook({ Datos: [['Nido', 'Metros', 'Nota'], ...rows] }));
    const lines = Object.values(text).join('').split('\n');
    expect(lines).toHaveLength(5_002);
    expect(lines[5_000]).toBe('N-4999,7498.5,nota 4999');
  });
});

describe('a workbook that cannot be read', () => {
  const compound = (stream: string): Uint8Array =>
    new Uint8Array([
      ...[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
      ...Array.from(stream, (letter) => [letter.charCodeAt(0), 0]).flat(),
    ]);

  test('is told to be locked, old, damaged or empty', async () => {
    expect(await read(compound('EncryptedPackage'))).toMatch(/is locked with a password/);
    expect(await read(compound('Workbook'), 'libro.xls')).toMatch(/of the old kind \(\.xls\)/);
    expect(await read(new TextEncoder().encode('no book'))).toMatch(/could not be read; it may be/);
    expect(await read(workbook({ Hoja1: [] }))).toMatch(/has nothing in any of its sheets/);
    expect(await read(workbook({ Hoja1: [['a']] }).slice(0, 400))).toMatch(/could not be read/);
  });

  test('that is no workbook but an archive is told', async () => {
    const zip = packZip(new Map([['nests.csv', 'nest\n']]), Date.UTC(2026, 6, 20));
    expect(await read(zip)).toMatch(/could not be read; it may be damaged, or no workbook/);
  });
});

describe('files that were given', () => {
  test('have their workbooks read, in an archive too, and .tsv and .txt', async () => {
    const book = new Uint8Array(workbook({ Nidos: [['Nido'], ['N-1']] }));
    const given = [
      new File([book], 'libro.xlsx'),
      new File(['Nido\tHuevos\n'], 'a.tsv'),
      new File(['Nido\tHuevos\n'], 'b.txt'),
    ];
    const all = await readGivenFiles(pickedFiles(given));
    expect(all.ok && texts(all.files)).toEqual({
      'libro.xlsx/Nidos.csv': 'Nido\nN-1\n',
      'a.tsv': 'Nido\tHuevos\n',
      'b.txt': 'Nido\tHuevos\n',
    });
  });
});
