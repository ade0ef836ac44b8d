import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { boxOf } from '../../../../src/core/exchange/geojson/bounding-box.ts';
import { seasonGeojson } from '../../../../src/core/exchange/geojson/season-geojson.ts';
import { writeCsv } from '../../../../src/core/exchange/csv/write-csv.ts';
import { publicRecord } from '../../../../src/core/exchange/public/public-record.ts';
import { inventSeason } from '../../../../src/core/invented-season/invented-season.ts';
import { NestDetails } from '../../../../src/core/domain/nest.ts';
import { fold } from '../../../../src/core/log/fold.ts';
import { read } from '../../../builders/season-files.ts';

/**
 * The rules of RFC 7946 that a collection of points must keep, by section. `strictObject`: the names of
 * the standard's own members must not be given another meaning (7.1), and there is no `crs` (4).
 */
const Position = z.array(z.number()).check(
  z.refine((numbers) => numbers.length === 2, '3.1.1: longitude and latitude, nothing more'),
  z.refine(([lon = NaN, lat = NaN]) => Math.abs(lon) <= 180 && Math.abs(lat) <= 90, '4: WGS 84'),
  z.refine(
    (numbers) => numbers.every((one) => Number(one.toFixed(7)) === one),
    '11.2: no false precision',
  ),
);
const Feature = z.strictObject({
  type: z.literal('Feature'), // 3.2
  id: z.string(), // 3.2: a string or a number
  geometry: z.nullable(
    z.strictObject({ type: z.literal('Point'), coordinates: Position }), // 3.1.2; 3.2: null when unlocated
  ),
  properties: z.record(z.string(), z.unknown()), // 3.2: an object or null, and always there
});
const FeatureCollection = z.strictObject({
  type: z.literal('FeatureCollection'), // 3.3
  bbox: z.optional(z.array(z.number()).check(z.length(4))), // 5: twice the number of dimensions
  features: z.array(Feature), // 3.3: may be empty
});

function seasonOf(nests: number) {
  const { programme, tables } = inventSeason({ nests, seed: 5 });
  const files: Record<string, string> = { 'programme.json': JSON.stringify(programme) };
  for (const { file, columns, rows } of tables) files[file] = writeCsv([columns, ...rows], '\n');
  const { events, zone } = read(files);
  return fold(events, zone);
}
const season = seasonOf(30);
const parsed = (text: string) => FeatureCollection.parse(JSON.parse(text));

describe('a season as GeoJSON', () => {
  test('keeps the rules of RFC 7946, as it is and rounded for the public', () => {
    for (const [record, precision] of [
      [season, null],
      [publicRecord(season, 0.01), 0.01],
    ] as const) {
      const { features, bbox } = parsed(seasonGeojson(record, precision));
      expect(features).toHaveLength(season.nests.size);
      expect(new Set(features.map(({ id }) => id)).size).toBe(features.length);
      const [west = NaN, south = NaN, east = NaN, north = NaN] = bbox ?? [];
      for (const { geometry } of features) {
        const [lon = NaN, lat = NaN] = geometry?.coordinates ?? [];
        expect(lon >= west && lon <= east && lat >= south && lat <= north).toBe(true);
      }
    }
  });

  test('gives the nests back as they were when it is read again', () => {
    for (const { properties, geometry } of parsed(seasonGeojson(season, null)).features) {
      const names = Object.keys(NestDetails.shape);
      const [longitude = null, latitude = null] = geometry?.coordinates ?? [];
      const details = NestDetails.parse({
        ...Object.fromEntries(names.map((name) => [name, properties[name] ?? null])),
        latitude,
        longitude,
      });
      const before = [...season.nests.values()].find(({ nest }) => nest.id === properties['nest']);
      const given = before?.registration.fact.details ?? {};
      expect(details).toEqual(
        Object.fromEntries(
          names.map((name) => [
            name,
            Object.entries(given).find(([key]) => key === name)?.[1] ?? null,
          ]),
        ),
      );
    }
  });

  test('says what the nests came to, and how good a position is', () => {
    const { features } = parsed(seasonGeojson(season, null));
    const boiled = features.filter(({ properties }) => properties['boil_night'] !== null);
    expect(boiled.length).toBeGreaterThan(5);
    expect(features.some(({ properties }) => typeof properties['hatch_success'] === 'number')).toBe(
      true,
    );
    expect(features[0]?.properties['coordinateUncertaintyInMeters']).toBe(30);
    const open = parsed(seasonGeojson(publicRecord(season, 0.1), 0.1)).features[0];
    expect(open?.properties).toMatchObject({
      coordinateUncertaintyInMeters: 15_721,
      dataGeneralizations: 'coordinates rounded to 0.1 degree',
    });
  });

  test('has a null geometry for a nest without a position, and no box when none has one', () => {
    const { events, zone } = read({ 'nests.csv': 'nest\nW-1\n' });
    const { features, bbox } = parsed(seasonGeojson(fold(events, zone), null));
    expect(features[0]?.geometry).toBeNull();
    expect(bbox).toBeUndefined();
  });
});

describe('the box around positions', () => {
  test('is west, south, east, north', () => {
    expect(boxOf([[-80, 27], [-79, 26], [-80.5, 28]])).toEqual([-80.5, 26, -79, 28]); // prettier-ignore
    expect(boxOf([[10, 20]])).toEqual([10, 20, 10, 20]);
  });

  // RFC 7946, section 5.2: across the 180th meridian the western edge is the larger number.
  test('goes the short way over the date line', () => {
    expect(boxOf([[177, -20], [-178, -16]])).toEqual([177, -20, -178, -16]); // prettier-ignore
  });
});
