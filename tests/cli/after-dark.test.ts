import { readFile, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { firstdark, put, scratch } from '../builders/command-line.ts';

let room: Awaited<ReturnType<typeof scratch>>;
beforeAll(async () => void (room = await scratch()));
afterAll(() => room.drop());

/** The one JSON document on standard output, as a list of rows. */
function rows(out: string): readonly Record<string, unknown>[] {
  return z.array(z.record(z.string(), z.unknown())).parse(JSON.parse(out));
}

describe('orientation', () => {
  // Bearings of Zar 2010, example 26.4: mean 99, r 0.82522, z 5.448.
  const tracks = '45;55;81;96;110;117;132;154';

  test('gives each record its figures under the names of the tables’ page', async () => {
    const folder = await put(join(room.path, 'tracks'), {
      'o.csv': `nest,night,seaward_deg,track_bearings\nW-1,2026-07-20,110,${tracks}\n`,
    });
    const { code, out, err } = await firstdark('orientation', join(folder, 'o.csv'), '--json');
    expect(err).toBe('');
    expect(code).toBe(0);
    const [row] = rows(out);
    expect(row).toMatchObject({ nest: 'W-1', night: '2026-07-20', n: 8, fan_deg: 109 });
    expect(row?.['mean_deg']).toBeCloseTo(98.9878, 3);
    expect(row?.['r']).toBeCloseTo(0.82522, 5);
    expect(row?.['rayleigh_z']).toBeCloseTo(5.448, 3);
    expect(row?.['rayleigh_p']).toBeCloseTo(0.00185, 5);
    expect(row?.['offset_deg']).toBeCloseTo(11.012, 3);
    expect(row?.['offset_side']).toBe('left');
  });

  test('takes the line to the sea from the zone in the programme beside it', async () => {
    const folder = await put(join(room.path, 'zoned'), {
      'programme.json': JSON.stringify({ zones: [{ zone: 'West', seaward_deg: 80 }] }),
      'o.csv': 'nest,night,zone,modal_deg\nW-1,2026-07-20,West,100\nW-2,2026-07-20,East,100\n',
    });
    const { out } = await firstdark('orientation', join(folder, 'o.csv'), '--json');
    const [west, east] = rows(out);
    expect(west).toMatchObject({ n: 0, mean_deg: null, offset_deg: 20, offset_of: 'mode' });
    expect(east).toMatchObject({ offset_deg: null });
  });

  test('tells a bad bearing by row and column, and ends with 1', async () => {
    const folder = await put(join(room.path, 'bad'), {
      'o.csv': 'nest,night,track_bearings\nW-1,2026-07-20,12;400\nW-2,2026-07-20,12\n',
    });
    const { code, out, err } = await firstdark('orientation', join(folder, 'o.csv'), '--json');
    expect(code).toBe(1);
    expect(err).toContain('o.csv:2:track_bearings:');
    expect(rows(out)).toHaveLength(1);
    const missing = await firstdark('orientation', join(folder, 'none.csv'));
    expect(missing).toMatchObject({ code: 1 });
    expect(missing.err).toContain('There is no file');
  });

  test('prints a table for people too', async () => {
    const folder = await put(join(room.path, 'plain'), {
      'o.csv': `nest,night,seaward_deg,track_bearings\nW-1,2026-07-20,110,${tracks}\nW-2,2026-07-20,,\n`,
    });
    const { out } = await firstdark('orientation', join(folder, 'o.csv'));
    expect(out).toMatch(/W-1 .* 99\.0 .*0\.83.*109 .*11 left/);
    expect(out).toMatch(/W-2 .*- .*-/);
  });
});

describe('inventory', () => {
  const header = 'nest,date,shells,unhatched,live_in_nest,dead_in_nest';

  test('gives success as shares, and which eggs they are of', async () => {
    const folder = await put(join(room.path, 'eggs'), {
      'i.csv': `${header},clutch\nA,2026-08-01,95,10,86,1,108\nB,2026-08-01,101,7,0,0,\n`,
    });
    const { code, out } = await firstdark('inventory', join(folder, 'i.csv'), '--json');
    expect(code).toBe(0);
    const [a, b] = rows(out);
    expect(a).toMatchObject({ nest: 'A', clutch: 108, denominator: 'laid' });
    expect(a?.['hatch_success']).toBeCloseTo(0.8796, 4);
    expect(a?.['emergence_success']).toBeCloseTo(0.0741, 4);
    expect(b).toMatchObject({ nest: 'B', clutch: 108, denominator: 'contents' });
    expect(b?.['hatch_success']).toBeCloseTo(0.9352, 4);
  });

  test('reckons from the eggs at laying in the nests beside it only when asked to', async () => {
    const folder = await put(join(room.path, 'laid'), {
      'nests.csv': 'nest,clutch\nA,120\n',
      'i.csv': `${header}\nA,2026-08-01,90,10,0,0\n`,
    });
    const file = join(folder, 'i.csv');
    const [plain] = rows((await firstdark('inventory', file, '--json')).out);
    const [laid] = rows((await firstdark('inventory', file, '--of', 'laid', '--json')).out);
    expect(plain).toMatchObject({ clutch: 100, hatch_success: 0.9 });
    expect(laid).toMatchObject({ clutch: 120, hatch_success: 0.75 });
    expect(await firstdark('inventory', file, '--of', 'guess')).toMatchObject({ code: 2 });
  });

  test('says which counts do not add up', async () => {
    const folder = await put(join(room.path, 'odd'), {
      'i.csv': `${header}\nA,2026-08-01,5,10,9,0\nB,2026-08-01,,10,,\n`,
    });
    const { code, out, err } = await firstdark('inventory', join(folder, 'i.csv'));
    expect(code).toBe(0);
    expect(err).toContain('i.csv:2:shells: warning:');
    expect(out).toMatch(/9 hatchlings were in the nest but only 5 shells/);
    expect(out).toMatch(/shells were not counted/);
  });
});

describe('export', () => {
  const nests = 'nest,latitude,longitude,zone\nW-1,27.123456,-80.654321,Hidden cove\n';

  test('writes GeoJSON and rounds positions for the public, most unless told otherwise', async () => {
    const folder = await put(join(room.path, 'map'), { 'nests.csv': nests });
    const file = join(room.path, 'out', 'nests.geojson');
    const point = async (...more: string[]) => {
      const said = await firstdark('export', folder, '--format', 'geojson', '--out', file, ...more);
      expect(said).toMatchObject({ code: 0, err: '' });
      const text = await readFile(file, 'utf8');
      expect(text.includes('Hidden cove')).toBe(more.length === 0);
      return z
        .object({
          features: z.array(z.object({ geometry: z.object({ coordinates: z.array(z.number()) }) })),
        })
        .parse(JSON.parse(text)).features[0]?.geometry.coordinates;
    };
    expect(await point()).toEqual([-80.654321, 27.123456]);
    expect(await point('--public')).toEqual([-80.7, 27.1]);
    expect(await point('--public', '--precision', '0.001')).toEqual([-80.654, 27.123]);
  });

  test('writes a Darwin Core Archive as a folder, or as one .zip', async () => {
    const folder = await put(join(room.path, 'archive'), { 'nests.csv': nests });
    const into = join(room.path, 'archive-out');
    await firstdark('export', folder, '--format', 'dwca', '--out', into);
    expect((await readdir(into)).sort()).toEqual([
      'eml.xml',
      'event.csv',
      'extended-measurement-or-fact.csv',
      'meta.xml',
      'occurrence.csv',
    ]);
    const zip = join(room.path, 'archive.zip');
    expect(await firstdark('export', folder, '--format', 'dwca', '--out', zip)).toMatchObject({
      code: 0,
    });
    const inside = unzipSync(await readFile(zip));
    expect(Object.keys(inside).sort()).toEqual((await readdir(into)).sort());
  });

  test('rounds tables for the public too', async () => {
    const folder = await put(join(room.path, 'open'), {
      'nests.csv': nests,
      'volunteers.csv': 'volunteer\nAda Invented\n',
    });
    const out = join(room.path, 'open-out');
    await firstdark('export', folder, '--format', 'csv', '--out', out, '--public');
    expect(await readdir(out)).toEqual(['nests.csv']);
    const text = await readFile(join(out, 'nests.csv'), 'utf8');
    expect(text).toContain('27.1,-80.7');
    expect(text).not.toContain('Hidden');
  });

  test('refuses a precision without --public, and one that is none', async () => {
    const base = ['export', room.path, '--format', 'csv', '--out', join(room.path, 'x')];
    for (const more of [
      ['--precision', '0.1'],
      ['--public', '--precision', '5'],
    ]) {
      expect(await firstdark(...base, ...more)).toMatchObject({ code: 2, out: '' });
    }
  });
});
