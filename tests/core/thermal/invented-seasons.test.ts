import { expect, test } from 'vitest';
import { asNight, parseNight } from '../../../src/core/domain/night.ts';
import { readSpecies } from '../../../src/core/domain/species.ts';
import { inventSeason } from '../../../src/core/invented-season/invented-season.ts';
import { BeachTemperature } from '../../../src/core/thermal/beach-temperature.ts';
import type { DailyWeather } from '../../../src/core/thermal/daily-weather.ts';

const nightOn = (text: string) => parseNight(text) ?? asNight(0);
const cell = (text: string | undefined) => (text ? Number(text) : null);

/** Nights from laying to the boil, and what the temperatures of the whole season say of them. */
function boils(seed: number, weather: 'ordinary' | 'hot-dry' | 'cold-wet', loggers: boolean) {
  const season = inventSeason({ nests: 120, seed, weather, loggers });
  const table = (file: string) => season.tables.find((each) => each.file === file)!.rows;
  const rows = table('conditions.csv').map(([date, zone, sand, air, rain]): DailyWeather => ({
    night: nightOn(date!),
    zone: zone === '' || zone === undefined ? null : zone,
    sand_c: cell(sand),
    air_c: cell(air),
    rain_mm: cell(rain),
  }));
  const beach = new BeachTemperature(rows, nightOn('2027-01-01'));
  const cards = new Map(table('nests.csv').map((card) => [card[0], card]));
  return season.truth.flatMap(({ nest, lay_night, night }) => {
    if (night === null) return [];
    const card = cards.get(nest)!;
    const laid = nightOn(lay_night);
    const central = beach.central(readSpecies(card[1]!), laid, card[4]!)!;
    return [{ took: nightOn(night) - laid, central: central.nights }];
  });
}

const mean = (values: number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;
const sd = (values: number[]) => Math.sqrt(mean(values.map((each) => (each - mean(values)) ** 2)));

test.each(['ordinary', 'hot-dry', 'cold-wet'] as const)(
  'in a %s season loggers narrow when nests are due, and leave little of the season’s temper',
  (weather) => {
    const seasons = [1, 2, 3].map((seed) => boils(seed, weather, true));
    const over = seasons.map((nests) => nests.map(({ took, central }) => took - central));
    const spread = mean(over.map(sd)) / mean(seasons.map((nests) => sd(nests.map((n) => n.took))));
    // Sand differs between nests of a zone by 0.75 C there, some 3.5 d, which no logger of the zone
    // can tell.
    expect(spread).toBeLessThan(0.9);
    // The shared season level, SD 0.07 of log duration or 4 d, has to make up for no more than
    // this.
    for (const nests of over) expect(Math.abs(mean(nests))).toBeLessThan(3);
  },
);

test('air alone tells a hot season from a cold one', () => {
  const [hot, cold] = (['hot-dry', 'cold-wet'] as const).map((weather) => boils(1, weather, false));
  const centrals = [hot!, cold!].map((nests) => mean(nests.map(({ central }) => central)));
  const took = [hot!, cold!].map((nests) => mean(nests.map((nest) => nest.took)));
  expect(centrals[1]! - centrals[0]!).toBeGreaterThan(2);
  expect(centrals[1]! - centrals[0]!).toBeLessThan(took[1]! - took[0]! + 4);
});
