import { describe, expect, test } from 'vitest';
import { problemLine } from '../../../src/core/exchange/problem.ts';
import { latin1, oneNest, places, read } from '../../builders/season-files.ts';

const nests = (rows: string): string =>
  `nest,species,lay_night,lay_night_latest,latitude,longitude,shore_m,clutch,relocated,light_exposure\n${rows}`;
const visits = (rows: string): string =>
  `nest,time,kind,surface,tracks,watched_from,watched_to,emerged\n${rows}`;
const lines = (contents: Parameters<typeof read>[0]): readonly string[] =>
  read(contents).problems.map(problemLine);
const taken = (contents: Parameters<typeof read>[0]): number =>
  read(contents).events.filter((event) => event.kind !== 'table-laid-out').length;

describe('rows of nests.csv', () => {
  test('a duplicate nest names both rows, and the first is taken', () => {
    const season = { 'nests.csv': nests('W-1,,,,,,,,,\nW-2,,,,,,,,,\nW-1,,,,,,,,,\n') };
    expect(lines(season)).toEqual([
      'nests.csv:4:nest: found W-1 a second time: rows 2 and 4 both hold it; expected one row for each. Row 2 is taken, this one is not; rename it or remove it.',
    ]);
    expect(taken(season)).toBe(2);
  });

  test('a date that does not exist is told, and the good rows are taken', () => {
    const season = {
      'nests.csv': nests('W-1,,2026-02-30,,,,,,,\nW-2,,2026-05-01,,,,,,,\nW-3,,5/1/2026,,,,,,,\n'),
    };
    expect(lines(season)).toEqual([
      'nests.csv:2:lay_night: found "2026-02-30"; expected the date of a night written like 2026-07-20. Remedy: there is no such date.',
      'nests.csv:4:lay_night: found "5/1/2026"; expected the date of a night written like 2026-07-20. Remedy: give the column the format yyyy-mm-dd (year, month, day).',
    ]);
    expect(taken(season)).toBe(1);
  });

  test('a lay range that runs backwards is an error, a very wide one or half of one a warning', () => {
    const season = {
      'nests.csv': nests(
        'W-1,,2026-05-09,2026-05-01,,,,,,\nW-2,,2026-05-01,2026-06-01,,,,,,\nW-3,,,2026-06-01,,,,,,\nW-4,,2026-05-01,2026-05-31,,,,,,\n',
      ),
    };
    expect(places(read(season))).toEqual([
      'nests.csv:2:lay_night_latest error',
      'nests.csv:3:lay_night_latest warning',
      'nests.csv:4:lay_night_latest warning',
    ]);
  });

  test('a position out of range is an error, one that looks swapped or halved a warning', () => {
    const season = {
      'nests.csv': nests(
        'W-1,,,,95,20,,,,\nW-2,,,,27,190,,,,\nW-3,,,,-80.1,27.2,,,,\nW-4,,,,27.2,-80.1,,,,\nW-5,,,,27.2,,,,,\n',
      ),
    };
    expect(places(read(season))).toEqual([
      'nests.csv:2:latitude error',
      'nests.csv:3:longitude error',
      'nests.csv:4:latitude warning',
      'nests.csv:6:longitude warning',
    ]);
  });

  test('light exposure goes from 0 to 3', () => {
    const season = {
      'nests.csv': nests('W-1,,,,,,,,,4\nW-2,,,,,,,,,-1\nW-3,,,,,,,,,1.5\nW-4,,,,,,,,,0\n'),
    };
    expect(places(read(season))).toEqual([
      'nests.csv:2:light_exposure error',
      'nests.csv:3:light_exposure error',
      'nests.csv:4:light_exposure error',
    ]);
  });

  test('numbers with units, thousands separators or words are refused with advice', () => {
    const season = {
      'nests.csv': nests(
        'W-1,,,,,,120 m,,,\nW-2,,,,,,"1,200",,,\nW-3,,,,,,,four,,\nW-4,,,,,,,-3,,\nW-5,,,,,,,n/a,,\n',
      ),
    };
    const advice = read(season).problems.map(({ message }) => message.split('Remedy: ')[1]);
    expect(advice).toEqual([
      'write the number alone, without a unit or other signs.',
      'write it with a decimal point and no thousands separators.',
      'write digits, with a decimal point if need be.',
      'it is negative.',
      'leave the cell empty when it is not known.',
    ]);
  });

  test('yes and no come in several spellings; other words are refused', () => {
    const words = ['y', 'TRUE', '1', 'Yes', 'n', 'false', '0', ' NO ', '', 'maybe'];
    const rows = words.map((word, index) => `W-${index},,,,,,,,${word},`).join('\n');
    const { events, problems } = read({ 'nests.csv': nests(`${rows}\n`) });
    const relocated = events.flatMap((event) =>
      event.kind === 'nest-registered' ? [event.details.relocated] : [],
    );
    expect(relocated).toEqual([true, true, true, true, false, false, false, false, undefined]);
    expect(problems.map(({ row }) => row)).toEqual([11]);
  });

  test('species are known by scientific name, English name and code', () => {
    const rows =
      'W-1,ttl,,,,,,,,\nW-2,Leatherback turtle,,,,,,,,\nW-3,chelonia  mydas,,,,,,,,\nW-4,snapping,,,,,,,,\n';
    const { events, problems } = read({ 'nests.csv': nests(rows) });
    expect(
      events.flatMap((event) => (event.kind === 'nest-registered' ? [event.details.species] : [])),
    ).toEqual(['Caretta caretta', 'Dermochelys coriacea', 'Chelonia mydas']);
    expect(problems.map(problemLine)[0]).toMatch(
      /^nests\.csv:5:species: found "snapping"; expected a species: Caretta caretta, /,
    );
  });
});

describe('rows of visits.csv', () => {
  test('a visit to an unknown nest is told and left out', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv': visits('W-7,2026-07-20T21:00,,,,,,\nW-1,2026-07-20T21:00,,,,,,\n'),
    };
    expect(places(read(season))).toEqual(['visits.csv:2:nest error']);
    expect(taken(season)).toBe(2);
  });

  test('visits to a nest whose own row has errors are told once', () => {
    const season = {
      'nests.csv': nests('W-1,,2026-02-30,,,,,,,\n'),
      'visits.csv': visits('W-1,2026-07-20T21:00,,,,,,\nW-1,2026-07-21T21:00,,,,,,\n'),
    };
    expect(places(read(season))).toEqual([
      'nests.csv:2:lay_night error',
      'visits.csv:2:nest error',
    ]);
    expect(taken(season)).toBe(0);
  });

  test('a visit before the noon of the lay night is before laying; later that night is not', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv': visits('W-1,2026-05-20T11:59,,,,,,\nW-1,2026-05-20T23:00,,,,,,\n'),
      'orientation.csv': 'nest,night\nW-1,2026-05-19\n',
      'inventory.csv': 'nest,date\nW-1,2026-05-19\n',
    };
    expect(places(read(season))).toEqual([
      'visits.csv:2:time error',
      'orientation.csv:2:night error',
      'inventory.csv:2:date error',
    ]);
  });

  test('a visit far in the future, or a season after laying, is taken with a warning', () => {
    const season = {
      'nests.csv': `${oneNest}W-2,\n`,
      'visits.csv': visits('W-1,2027-07-20T21:00,,,,,,\nW-2,2062-07-20T21:00,,,,,,\n'),
    };
    expect(places(read(season))).toEqual([
      'visits.csv:2:time warning',
      'visits.csv:3:time warning',
    ]);
    expect(taken(season)).toBe(4);
  });

  test('a sit that ends before it begins is an error', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv': visits('W-1,2026-07-20T21:00,,,,2026-07-20T21:00,2026-07-20T01:00,0\n'),
    };
    expect(places(read(season))).toEqual(['visits.csv:2:watched_to error']);
  });

  test('hatchlings without a sit, half a sit, and tracks in the evening are warnings', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv': visits(
        'W-1,2026-07-20T21:00,,,,,,3\nW-1,2026-07-20T21:00,,,,2026-07-20T21:00,,\nW-1,2026-07-20T21:00,evening,,12,,,\n',
      ),
    };
    expect(places(read(season))).toEqual([
      'visits.csv:2:emerged warning',
      'visits.csv:3:watched_to warning',
      'visits.csv:4:tracks warning',
    ]);
    expect(taken(season)).toBe(4);
  });

  test('negative counts are errors', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv': visits('W-1,2026-07-20T21:00,,,-1,,,\n'),
      'conditions.csv': 'date,rain_mm\n2026-07-20,-2\n',
    };
    expect(places(read(season))).toEqual([
      'visits.csv:2:tracks error',
      'conditions.csv:2:rain_mm error',
    ]);
  });

  test('words are read in any case and spacing; unknown ones are told with the list', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv': visits(
        'W-1,2026-07-20T21:00,,Depression ,,,,\nW-1,2026-07-20T21:00,,dented,,,,\n',
      ),
    };
    expect(lines(season)).toEqual([
      'visits.csv:3:surface: found "dented"; expected smooth, dip, depression or caved. Remedy: use one of these words, or leave the cell empty.',
    ]);
  });

  test('an empty cell is never zero and never an error', () => {
    const season = { 'nests.csv': oneNest, 'visits.csv': visits('W-1,2026-07-20T21:00,, ,,,,\n') };
    const { events, problems } = read(season);
    expect(problems).toEqual([]);
    expect(events.find((event) => event.kind === 'visit-noted')?.details).toEqual({});
  });
});

describe('files', () => {
  test('a quotation mark that never closes names its row; the rows above are taken', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv':
        'nest,time,note\nW-1,2026-07-20T21:00,fine\nW-1,2026-07-21T21:00,"half\nW-1,2026-07-22T21:00,gone\n',
    };
    expect(places(read(season))).toEqual(['visits.csv:3:note error']);
    expect(taken(season)).toBe(2);
  });

  test('text after a closing quotation mark costs its own row only', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv':
        'nest,time,note\nW-1,2026-07-20T21:00,"so" he said\nW-1,2026-07-21T21:00,fine\n',
    };
    expect(places(read(season))).toEqual(['visits.csv:2:note error']);
    expect(taken(season)).toBe(2);
  });

  test('a quotation mark that closes rows further down is an error where it was opened', () => {
    const season = {
      'nests.csv': oneNest,
      'visits.csv':
        'nest,time,note\nW-1,2026-07-20T21:00,"half\nW-1,2026-07-21T21:00,"fine"\nW-1,2026-07-22T21:00,\n',
    };
    expect(places(read(season))).toEqual(['visits.csv:2:note error']);
    expect(taken(season)).toBe(1);
  });

  test('Latin-1 bytes are read as such, with a warning', () => {
    const latin = latin1('nest,zone\nW-1,pl\u00e4tze\n');
    const season = read({ 'nests.csv': latin });
    expect(places(season)).toEqual(['nests.csv:1:- warning']);
    expect(season.events[0]).toMatchObject({ details: { zone: 'pl\u00e4tze' } });
  });

  test('a byte order mark does not become part of the first heading', () => {
    const season = read({ 'nests.csv': `\ufeff${oneNest}` });
    expect(season.problems).toEqual([]);
    expect(season.counts.nests).toEqual({ rows: 1, taken: 1 });
  });

  test('semicolons and tabs part cells as well, and a decimal comma is accepted with a warning', () => {
    const season = read({
      'nests.csv': 'nest;shore_m\nW-1;27,4\nW-2;1,5\n',
      'conditions.csv': 'date\tsand_c\n2026-07-20\t29.5\n',
    });
    expect(season.problems.map(problemLine)).toEqual([
      'nests.csv:2:shore_m: warning: 27,4 read as 27.4, and likewise in the rest of this column. Write a decimal point to be sure.',
    ]);
    expect(season.events[0]).toMatchObject({ details: { shore_m: 27.4 } });
    expect(season.counts.conditions).toEqual({ rows: 1, taken: 1 });
  });

  test('unknown columns are told once for the file', () => {
    const season = read({ 'nests.csv': 'nest,Colour,Sky\nW-1,red,blue\nW-2,red,\n' });
    expect(season.problems.map(problemLine)).toEqual([
      'nests.csv:1:Colour: warning: unknown columns "Colour", "Sky", kept as found and not read.',
    ]);
  });

  test('a missing column without which no row says anything is told at row 1', () => {
    const season = read({
      'nests.csv': oneNest,
      'visits.csv': 'nest,when\nW-1,2026-07-20T21:00\n',
    });
    expect(places(season)).toEqual(['visits.csv:1:when warning', 'visits.csv:1:time error']);
  });

  test('a column that stands there twice is an error, and the first is read', () => {
    const season = read({ 'nests.csv': 'nest,zone,Zone\nW-1,west,east\n' });
    expect(places(season)).toEqual(['nests.csv:1:Zone error']);
    expect(season.events[0]).toMatchObject({ details: { zone: 'west' } });
  });

  test('headings are known in any case and spacing', () => {
    const season = read({ 'NESTS.CSV': ' Nest , LAY NIGHT ,Light-Exposure\nW-1,2026-05-20,2\n' });
    expect(season.problems).toEqual([]);
    expect(season.events[0]).toMatchObject({
      details: { lay_night: '2026-05-20', light_exposure: 2 },
    });
  });

  test('more cells than headings are an error: a comma stands outside quotation marks', () => {
    const season = read({ 'nests.csv': 'nest,zone\nW-1,west, of the pier\nW-2,west,,\n' });
    expect(places(season)).toEqual(['nests.csv:2:- error']);
    expect(season.counts.nests).toEqual({ rows: 2, taken: 1 });
  });

  test('rows are numbered as a spreadsheet numbers them, empty lines and long cells included', () => {
    const season = read({ 'nests.csv': 'nest,zone\n\nW-1,"two\nlines"\nW-2,west\n,east\n' });
    expect(places(season)).toEqual(['nests.csv:5:nest error']);
  });

  test('a folder without nests.csv, an empty file and a file that is no season are told', () => {
    expect(places(read({ 'visits.csv': 'nest,time\n', 'README.txt': '' }))).toEqual([
      'README.txt:0:- warning',
      'nests.csv:0:- error',
    ]);
    expect(places(read({ 'nests.csv': '' }))).toEqual(['nests.csv:1:- error']);
  });

  test('files lie in a folder of an archive too; two seasons at once are refused', () => {
    expect(
      places(read({ 'season/nests.csv': oneNest, '__MACOSX/season/._nests.csv': '?' })),
    ).toEqual([]);
    expect(places(read({ 'a/nests.csv': oneNest, 'b/nests.csv': oneNest }))).toEqual([
      'nests.csv:0:- error',
    ]);
  });

  test('programme.json that is not JSON, or names no time zone there is, is told', () => {
    expect(places(read({ 'nests.csv': oneNest, 'programme.json': '{' }))).toEqual([
      'programme.json:0:- error',
    ]);
    const season = read({ 'nests.csv': oneNest, 'programme.json': '{"time_zone":"Mars/Base"}' });
    expect(season.problems.map(problemLine)).toEqual([
      'programme.json:0:time_zone: found "Mars/Base"; expected an IANA time zone such as America/New_York. The file is left out until it is mended.',
    ]);
  });

  test('a file with more problems than anyone would read lists a thousand and counts the rest', () => {
    const rows = Array.from({ length: 1500 }, (_, index) => `W-${index},9\n`).join('');
    const { problems } = read({ 'nests.csv': `nest,light_exposure\n${rows}` });
    expect(problems).toHaveLength(1001);
    expect(problems.at(-1)?.message).toMatch(/^500 more errors/);
  });
});

describe('times', () => {
  test('without an offset are read on the clocks of the programme', () => {
    const contents = {
      'nests.csv': oneNest,
      'visits.csv': 'nest,time\nW-1,2026-07-20T21:10\n',
      'programme.json': '{"time_zone":"Australia/Brisbane"}',
    };
    const visit = read(contents).events.find((event) => event.kind === 'visit-noted');
    expect(visit?.at).toBe('2026-07-20T21:10+10:00');
  });
});
