import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { declination, trueBearing } from '../../../src/core/orientation/declination.ts';

// Truth: test values published with the World Magnetic Model (NOAA/NCEI and BGS), as the package
// vendors them in test/values.csv. They are given to 0.01 degrees; the tolerance is one unit more, as
// a year of 365 days and one of 366 put the same date a few hours apart.
const folder = dirname(createRequire(import.meta.url).resolve('geomagnetism/package.json'));
const [header = '', ...lines] = readFileSync(join(folder, 'test/values.csv'), 'utf8')
  .trim()
  .split(/\r?\n/)
  .map((line) => line.trim());
const names = header.split(',');
const rows = lines.map((line) =>
  Object.fromEntries(line.split(',').map((cell, index) => [names[index] ?? '', Number(cell)])),
);

test('declination is that of the test values that come with the World Magnetic Model', () => {
  // Ours is for sea level.
  const atSea = rows.filter(({ alt }) => alt === 0);
  expect(atSea).toHaveLength(9);
  for (const { date = 0, lat = 0, lon = 0, decl = 0 } of atSea) {
    const year = Math.floor(date);
    // A day in, so that no two editions of the model meet there.
    const at_ms = Date.UTC(year, 0, 1) + (date - year) * 365 * 86_400_000 + 86_400_000;
    const found = declination({ latitude_deg: lat, longitude_deg: lon }, at_ms);
    if (found.kind !== 'known') throw new Error(found.message);
    expect(Math.abs(found.east_deg - decl), `${date} ${lat} ${lon}`).toBeLessThan(0.02);
  }
});

test('a date that no model covers is said, with what to do', () => {
  const found = declination({ latitude_deg: 27, longitude_deg: -80 }, Date.UTC(2041, 5, 1));
  expect(found).toMatchObject({ kind: 'no model' });
  expect(found.kind === 'no model' && found.message).toContain('2041');
});

test('a compass where magnetic north lies 6 degrees west of true north reads 6 degrees too much', () => {
  expect(trueBearing(96, -6)).toBe(90);
  expect(trueBearing(3, -6)).toBe(357);
});
