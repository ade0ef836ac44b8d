import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { readWorkbook } from '../../../src/edges/files/read-workbook.ts';
import { faultOfXml } from '../../../src/edges/files/sound-xml.ts';
import { unpackZip } from '../../../src/edges/files/unpack-zip.ts';
import { workbook } from '../../builders/workbook.ts';

const season = zipSync({
  'nests.csv': strToU8(`nest,species\n${'W-1,Chelonia mydas\n'.repeat(40)}`),
});

describe('an archive that was damaged on the way', () => {
  test('is refused, and never read as other words and numbers than were in it', () => {
    const good = unpackZip('s.zip', season);
    expect(good.ok).toBe(true);
    for (let at = 40; at < 80; at++) {
      const damaged = season.slice();
      damaged[at] = (damaged[at] ?? 0) ^ 4;
      const read = unpackZip('s.zip', damaged);
      const text = read.ok ? read.files.get('nests.csv') : null;
      // A bit that says nothing of the content may be turned; then the content is as it was.
      if (text !== null) expect(text).toEqual(good.ok ? good.files.get('nests.csv') : null);
    }
  });

  test('is refused when its list says that a file is shorter than it is', () => {
    const lying = season.slice();
    const view = new DataView(lying.buffer);
    const list = view.getUint32(lying.length - 22 + 16, true);
    view.setUint32(list + 24, 30, true);
    expect(unpackZip('s.zip', lying)).toEqual({
      ok: false,
      message: expect.stringMatching(/^s\.zip could not be unpacked; it may be damaged/) as string,
    });
  });
});

describe('a workbook made to bring the reader to a stop', () => {
  const parts = unzipSync(workbook({ Datos: [['nest', 'lay_night']] }));
  const sheet = new TextDecoder().decode(parts['xl/worksheets/sheet1.xml']);
  const head = sheet.slice(0, sheet.indexOf('</sheetData>'));
  const tail = '</sheetData></worksheet>';
  const read = async (xml: string): Promise<string> => {
    const made = zipSync({ ...parts, 'xl/worksheets/sheet1.xml': strToU8(xml) });
    const given = await readWorkbook('libro.xlsx', made);
    return given.ok ? 'read' : given.message;
  };

  test.each([
    ['four megabytes of nothing', ' '.repeat(4e6)],
    ['a comment that does not end', `${head}<!--${'<c>'.repeat(100_000)}`],
    ['a tag that does not end', `${head}<c r="${'A'.repeat(100_000)}`],
    [
      'a row beyond the last',
      `${head}<row r="99999999"><c r="A99999999"><v>1</v></c></row>${tail}`,
    ],
  ])('%s is refused as damaged', async (_, xml) => {
    expect(await read(xml)).toMatch(/^libro\.xlsx could not be read; it may be damaged/);
  });

  test.each([
    ['a million rows', `${head}${'<row/>'.repeat(1e6)}${tail}`],
    ['a full page far out', `${head}<row r="100000"><c r="XFD100000"><v>1</v></c></row>${tail}`],
    ['rows after a far one', `${head}<row r="1048576"/>${'<row/>'.repeat(50_000)}${tail}`],
  ])('%s is refused as too much', async (_, xml) => {
    expect(await read(xml)).toMatch(/^libro\.xlsx has a sheet with more rows and columns/);
  });

  test('an empty row far below, as spreadsheets write it, does no harm', async () => {
    expect(await read(`${head}<row r="1048576" ht="12"/>${tail}`)).toBe('read');
  });
});

test('what a workbook may hold is sound: long texts, comments, marks inside attributes, prefixes', () => {
  const texts = [
    `<t>${'&quot;'.repeat(32_767)}</t>`,
    '<?xml version="1.0"?><!-- a > b --><a b="c > d" e=\'"\'><![CDATA[ < ]]></a>',
    '<x:row r="3"><x:c r="B3"/></x:row>',
    '',
  ];
  for (const text of texts) expect(faultOfXml(strToU8(text))).toBeNull();
});
