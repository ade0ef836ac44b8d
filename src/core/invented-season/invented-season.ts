import { asNight, parseNight } from '../domain/night.ts';
import type { BeachClock } from './beach-clock.ts';
import { type InventedProgramme, inventCoast } from './coast.ts';
import { inventOffers } from './duty.ts';
import { inventoryTable } from './egg-inventory.ts';
import { type Beach, fateOf } from './fate.ts';
import { followSeason } from './follow-season.ts';
import { withGaps } from './gaps.ts';
import { knownNests, type KnownNest } from './known-nests.ts';
import { LAY_NIGHTS, layClutches } from './laying.ts';
import { sandUnder } from './sand.ts';
import { inventSea } from './sea.ts';
import {
  availabilityTable,
  conditionsTable,
  type InventedTable,
  nestsTable,
  visitsTable,
  volunteersTable,
} from './tables.ts';
import { orientationTable } from './tracks-to-the-sea.ts';
import { inventVolunteers, type ObserverMix } from './volunteers.ts';
import { inventWeather, type WeatherKind } from './weather.ts';

export interface InventedSeasonOptions {
  /** How many nests are laid. */
  nests: number;
  seed: number;
  /** 2026 unless said. */
  year?: number;
  weather?: WeatherKind;
  observers?: ObserverMix;
  /** Whether zones have a logger in the sand (`sand_c`); yes unless said. */
  loggers?: boolean;
  /** Whether temperature and rain are written down at all; yes unless said. */
  temperature?: boolean;
  /** Share of cells and visits that nobody wrote down, 0..1, beyond the ordinary blanks. */
  missing?: number;
}

/** What really became of a nest, which no table says. */
export interface InventedTruth {
  nest: string;
  outcome: 'boil' | 'lost';
  /** The night on which it was laid. */
  lay_night: string;
  /** The night of the boil: the first main emergence. */
  night: string | null;
  /** Its hour, ISO 8601 with offset. */
  time: string | null;
  /** Hatchlings that came up together then; stragglers not counted. */
  hatchlings: number;
}

export interface InventedSeason {
  programme: InventedProgramme;
  tables: InventedTable[];
  truth: InventedTruth[];
}

/**
 * A whole season of an invented coast in the tables of a season folder, and the truth behind it.
 *
 * Weather warms the sand, the sand's warmth drives the embryos, hatchlings dig and leave signs,
 * and people of several kinds walk, look, listen and write. It knows nothing of the odds that the
 * program works out, so that these can be tried on it. The same options give the same season on
 * every machine; `observers`, `loggers`, `temperature` and `missing` leave the truth as it is.
 *
 * Throws a RangeError for a number of nests, a seed, a year or a share that cannot be.
 */
export function inventSeason(options: InventedSeasonOptions): InventedSeason {
  const {
    nests,
    seed,
    year,
    weather: kind,
    observers,
    loggers,
    temperature,
    missing,
  } = whole(options);
  const yearStart = dayOf(year, '01-01');
  const may = dayOf(year, '05-01');
  const last = may + LAY_NIGHTS + 100;

  const coast = inventCoast(nests);
  const weather = inventWeather(seed, kind, yearStart, may - 40, last + 40);
  const sands = coast.zones.map(({ zone, warmer_c }) => ({
    zone,
    sand: sandUnder(weather, warmer_c),
  }));
  const sandOf = new Map(sands.map(({ zone, sand }) => [zone, sand] as const));
  const beach: Beach = {
    weather,
    sea: inventSea(seed, weather),
    daylight: coast.clock,
    sand: (zone) => {
      const sand = sandOf.get(zone);
      if (sand === undefined) throw new RangeError(`No zone ${zone} was invented.`);
      return sand;
    },
  };
  const followed = knownNests(
    seed,
    layClutches(seed, coast, nests, may).map((clutch) => ({
      clutch,
      fate: fateOf(seed, clutch, beach),
    })),
  );
  const volunteers = inventVolunteers(seed, coast, observers, nests);
  const offers = inventOffers(seed, volunteers, may, may + 30, last - 20);
  const visits = followSeason(
    { seed, coast, weather, volunteers, offers, first: may, last },
    followed,
  );

  const { clock } = coast;
  const tables = [
    nestsTable(seed, coast, followed),
    visitsTable(visits, clock),
    conditionsTable(seed, weather, loggers ? sands : [], may, last, clock),
    volunteersTable(volunteers),
    availabilityTable(offers, clock),
    orientationTable(seed, coast, weather, followed, visits),
    inventoryTable(seed, followed, clock),
  ].filter(({ file }) => temperature || file !== 'conditions.csv');
  return {
    programme: coast.programme,
    tables: missing > 0 ? withGaps(seed, missing, tables) : tables,
    truth: followed.map((known) => truthOf(known, clock)),
  };
}

function truthOf({ clutch, fate }: KnownNest, clock: BeachClock): InventedTruth {
  const boil = fate.outcome === 'boil' ? fate.emergence.boil : null;
  return {
    nest: clutch.nest,
    outcome: fate.outcome,
    lay_night: clock.date(clutch.laid),
    night: boil === null ? null : clock.date(Math.floor(boil.moment)),
    time: boil === null ? null : clock.text(boil.moment),
    hatchlings: boil?.hatchlings ?? 0,
  };
}

function whole(options: InventedSeasonOptions): Required<InventedSeasonOptions> {
  const asked = {
    year: 2026,
    weather: 'ordinary' as const,
    observers: 'mixed' as const,
    loggers: true,
    temperature: true,
    missing: 0,
    ...options,
  };
  const { nests, seed, year, missing } = asked;
  if (!Number.isInteger(nests) || nests < 0)
    throw new RangeError(`The number of nests is a whole number from 0, not ${nests}.`);
  if (!Number.isSafeInteger(seed))
    throw new RangeError(`The seed is a whole number below 2^53, not ${seed}.`);
  if (!Number.isInteger(year) || year < 1970 || year > 9000)
    throw new RangeError(`The year is a whole number from 1970 to 9000, not ${year}.`);
  if (!(missing >= 0 && missing <= 1))
    throw new RangeError(`The missing share lies from 0 to 1, not ${missing}.`);
  return asked;
}

function dayOf(year: number, monthAndDay: string): number {
  return parseNight(`${year}-${monthAndDay}`) ?? asNight(0);
}
