import { describe, expect, test } from 'vitest';
import { writeCsv } from '../../../src/core/exchange/csv/write-csv.ts';
import { inventSeason } from '../../../src/core/invented-season/invented-season.ts';
import { fold } from '../../../src/core/log/fold.ts';
import { readEvent } from '../../../src/core/log/upcast.ts';
import { writeSeasonFolder } from '../../../src/core/exchange/season-folder/write-season-folder.ts';
import { latin1, read, roundTrip } from '../../builders/season-files.ts';

describe('a season folder that goes in and comes out', () => {
  test('is the same to the byte for a whole invented season', () => {
    const { programme, tables } = inventSeason({ nests: 40, seed: 3, missing: 0.1 });
    const folder: Record<string, string> = { 'programme.json': JSON.stringify(programme, null, 2) };
    for (const { file, columns, rows } of tables) {
      folder[file] = writeCsv([columns, ...rows], '\n');
    }
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps every cell as it was written, not as we would write it', () => {
    const folder = {
      'nests.csv':
        'Nest ,species,lay night,relocated,clutch,shore_m,latitude,longitude\n' +
        'W-1,Loggerhead, 2026-05-20,Y,0110,120.50,+27.10,-79.2\n' +
        'W-2,ttl,,FALSE,,1e2,,\n',
      'visits.csv':
        'time,nest,surface,note,tracks\n' +
        '2026-07-20 21:10,W-1,Depression ,"  two spaces, and ""quotes""\nand a line  ",\n' +
        '2026-07-21T01:10Z,W-1,,  ,0\n',
      'volunteers.csv': 'volunteer,zones\nAda,west ; east;\nBo,;\n',
      'availability.csv': 'volunteer,night,from\nAda,2026-07-20,9:30\n',
      'orientation.csv': 'nest,night,track_bearings\nW-1,2026-07-20,010;20.0; 30\n',
    };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps unknown columns, repeated ones and nameless ones where they stood', () => {
    const folder = {
      'nests.csv': 'Colour,nest,,Colour,,__proto__\nred,W-1,a,blue,b,c\n,W-2,,,,\n',
    };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps both columns where one is headed as a repeated one is counted', () => {
    const folder = { 'nests.csv': 'nest,x,x,x#2,x\nW-1,a,b,c,d\n' };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps columns headed by words that every object knows, with and without a value', () => {
    const folder = {
      'nests.csv': 'nest,constructor,toString\nW-1,,a\nW-2,b,\n',
      'visits.csv':
        "nest,time,constructor\nW-1,2026-07-20T21:00-04:00,'=1\nW-1,2026-07-21T21:00-04:00,\n",
    };
    expect(roundTrip(folder)).toEqual(folder);
    const all = read(folder);
    expect(read(folder, fold(all.events, all.zone)).events).toHaveLength(all.events.length);
  });

  test('keeps tables that hold a header only, and the order of rows', () => {
    const folder = {
      'nests.csv': 'nest,lay_night\nW-2,2026-06-20\nW-1,2026-05-20\nW-3,\n',
      'visits.csv':
        'nest,time\nW-1,2026-07-22T21:00-04:00\nW-3,2026-07-20T21:00-04:00\nW-1,2026-07-21T21:00-04:00\n',
      'inventory.csv': 'nest,date,shells\n',
    };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps the same row when it stands there twice', () => {
    const row = 'W-1,2026-07-22T21:00-04:00\n';
    const folder = {
      'nests.csv': 'nest\nW-1\n',
      'visits.csv': `nest,time\n${row}${row}${row}`,
    };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps the kind of line ends, and those inside cells', () => {
    const folder = {
      'nests.csv': 'nest\r\nW-1\r\n',
      'visits.csv': 'nest,time,note\nW-1,2026-07-22T21:00-04:00,"a\r\nb"\n',
    };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('keeps keys of programme.json that nobody knows, and its layout', () => {
    const folder = {
      'nests.csv': 'nest\nW-1\n',
      'programme.json': '{ "zones": [], "motto": {"deep": [1]},\n "name": "Invented" }',
    };
    expect(roundTrip(folder)).toEqual(folder);
  });

  test('is the same after the events have lain in a log as JSON', () => {
    const folder = {
      'nests.csv': 'nest,clutch,Colour\nW-1,0110,red\n',
      'visits.csv': 'nest,time,surface\nW-1,2026-07-20 21:10,DIP\n',
      'programme.json': '{"time_zone": "America/New_York", "name": "Invented"}\n',
    };
    const { events, zone } = read(folder);
    const back = events.map((event) => {
      const logged = readEvent(JSON.parse(JSON.stringify(event)));
      if (logged.state !== 'known') throw new Error(logged.why);
      return logged.event;
    });
    const written = writeSeasonFolder(fold(back, zone), { guard: false });
    expect(Object.fromEntries(written)).toEqual(folder);
  });

  test('writes plain UTF-8 with commas, whatever came in', () => {
    const latin = latin1('nest;shore_m;zone\nW-1;27,4;pl\u00e4tze\n');
    expect(roundTrip({ 'nests.csv': latin })).toEqual({
      'nests.csv': 'nest,shore_m,zone\nW-1,27.4,pl\u00e4tze\n',
    });
    expect(roundTrip({ 'nests.csv': '\ufeffnest\tzone\nW-1\twest\n' })).toEqual({
      'nests.csv': 'nest,zone\nW-1,west\n',
    });
  });
});

describe('cells that a spreadsheet would run', () => {
  const folder = {
    'nests.csv': 'nest,zone,shore_m,=cmd()\nW-1,=1+1,-12.5,@x\n-3,+1,-5,\n',
  };

  test('are guarded by an apostrophe when asked; plain numbers are not', () => {
    expect(roundTrip(folder, true)).toEqual({
      'nests.csv': "nest,zone,shore_m,'=cmd()\nW-1,'=1+1,-12.5,'@x\n-3,+1,-5,\n",
    });
  });

  test('lose the guard when they are read again', () => {
    const again = read(roundTrip(folder, true));
    const nest = again.events.find((event) => event.kind === 'nest-registered');
    expect(nest).toMatchObject({
      details: { zone: '=1+1' },
      source: { extra: { "'=cmd()": '@x' } },
    });
  });

  test('come out as they are when no guard is asked for', () => {
    expect(roundTrip(folder)).toEqual(folder);
  });
});

describe('columns that came later', () => {
  const visits = (rest: string): string =>
    `nest,time,emerged${rest === '' ? '' : ',emergence,reached_water,way'}\nW-1,2026-07-20T23:10-04:00,80${rest}\n`;
  const folder = (rest: string) => ({ 'nests.csv': 'nest\nW-1\n', 'visits.csv': visits(rest) });

  test('go in and come out', () => {
    const full = folder(',boil,78,holes;gear');
    expect(roundTrip(full)).toEqual(full);
    expect(read(full).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('leave the same event to a row that does not fill them in', () => {
    const idOf = (contents: ReturnType<typeof folder>) =>
      read(contents).events.find(({ kind }) => kind === 'visit-noted')?.id;
    expect(idOf(folder(',,,'))).toBe(idOf(folder('')));
    expect(idOf(folder(',boil,,'))).not.toBe(idOf(folder('')));
  });

  test('say more at the water, astray and taken than came up, and unknown words, by column', () => {
    const { problems } = read(folder(',boil,90,swimming'));
    expect(problems.map(({ column, severity }) => [column, severity])).toContainEqual([
      'way',
      'error',
    ]);
    const over = read(folder(',boil,90,')).problems;
    expect(over.map(({ column, severity }) => [column, severity])).toEqual([
      ['emerged', 'warning'],
      ['emerged', 'warning'],
    ]);
  });
});
