import type { InventedSeason } from '../../../src/core/invented-season/invented-season.ts';
import { parseInstant } from '../../../src/core/domain/instant.ts';
import { nightOf, parseNight } from '../../../src/core/domain/night.ts';

/** Rows of one table of a season by column name. */
export function rowsOf(season: InventedSeason, file: string): Record<string, string>[] {
  const table = season.tables.find((each) => each.file === file);
  if (table === undefined) throw new Error(`The season has no ${file}.`);
  return table.rows.map((row) =>
    Object.fromEntries(table.columns.map((column, at) => [column, row[at] ?? ''])),
  );
}

/** The night number of a `yyyy-mm-dd`. */
export function nightNumber(text: string | null | undefined): number {
  const night = parseNight(text ?? '');
  if (night === null) throw new Error(`Not a night: ${String(text)}`);
  return night;
}

/** The night that a time of a season belongs to. */
export function nightOfTime(season: InventedSeason, time: string | null | undefined): number {
  const at_ms = parseInstant(time ?? '');
  if (at_ms === null) throw new Error(`Not a time: ${String(time)}`);
  return nightOf(at_ms, season.programme.time_zone);
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function spread(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(
    values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1),
  );
}

/** Nights from laying to the boil of every nest of a species that came up. */
export function durations(season: InventedSeason, species: string): number[] {
  const speciesOf = new Map(rowsOf(season, 'nests.csv').map((row) => [row.nest, row.species]));
  return season.truth
    .filter(({ nest, night }) => night !== null && speciesOf.get(nest) === species)
    .map(({ night, lay_night }) => nightNumber(night) - nightNumber(lay_night));
}
