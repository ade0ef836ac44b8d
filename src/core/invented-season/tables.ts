import type { BeachClock } from './beach-clock.ts';
import type { Coast } from './coast.ts';
import type { KnownNest } from './known-nests.ts';
import { type Random, randomStream } from '../numerics/random.ts';
import type { Sand } from './sand.ts';
import type { VisitRecord } from './visit-record.ts';
import type { Volunteer } from './volunteers.ts';
import type { Weather } from './weather.ts';

/** One table of a season folder: cell texts exactly as they go into the file; blank = not known. */
export interface InventedTable {
  file: string;
  columns: string[];
  rows: string[][];
}

/** `nests.csv`: what is known of each nest; here and there a cell was never filled in. */
export function nestsTable(seed: number, coast: Coast, nests: readonly KnownNest[]): InventedTable {
  return {
    file: 'nests.csv',
    columns: [
      'nest',
      'species',
      'lay_night',
      'lay_night_latest',
      'zone',
      'latitude',
      'longitude',
      'shore_m',
      'clutch',
      'relocated',
      'screened',
      'light_exposure',
    ],
    rows: nests.map(({ clutch, layRecord }) => {
      const random = randomStream(seed, 'nest card', clutch.index);
      const { latitude, longitude } = coast.position(clutch.zone, clutch.shore_m);
      return [
        clutch.nest,
        clutch.species,
        layRecord.kind === 'unknown' ? '' : coast.clock.date(layRecord.night),
        layRecord.kind === 'between' ? coast.clock.date(layRecord.latest) : '',
        clutch.zone.zone,
        latitude,
        longitude,
        String(clutch.shore_m),
        clutch.relocated || random.chance(0.6) ? String(clutch.eggs) : '',
        filled(random, 0.06, clutch.relocated ? 'yes' : 'no'),
        filled(random, 0.06, clutch.screened ? 'yes' : 'no'),
        filled(random, 0.12, String(clutch.light)),
      ];
    }),
  };
}

function filled(random: Random, blank: number, text: string): string {
  return random.chance(blank) ? '' : text;
}

/** `visits.csv`, in the order of time. */
export function visitsTable(visits: readonly VisitRecord[], clock: BeachClock): InventedTable {
  return {
    file: 'visits.csv',
    columns: [
      'nest',
      'time',
      'kind',
      'observer',
      'experience',
      'surface',
      'sound',
      'instrument',
      'wind',
      'rain',
      'tracks',
      'event',
      'watched_from',
      'watched_to',
      'emerged',
      'scratch_per_min',
      'active_share',
      'level_db',
      'note',
    ],
    rows: visits.map((visit) => [
      visit.nest,
      clock.text(visit.moment),
      visit.kind,
      visit.by.name,
      visit.by.experience,
      visit.surface ?? '',
      visit.sound ?? '',
      visit.sound !== null && visit.by.namesInstrument ? visit.by.instrument : '',
      visit.wind ?? '',
      visit.rain ?? '',
      visit.tracks === null ? '' : String(visit.tracks),
      visit.event ?? '',
      visit.watch === null ? '' : clock.text(visit.watch.from),
      visit.watch === null ? '' : clock.text(visit.watch.to),
      visit.watch === null ? '' : String(visit.watch.emerged),
      visit.meter === null ? '' : visit.meter.scratch_per_min.toFixed(1),
      visit.meter === null ? '' : visit.meter.active_share.toFixed(2),
      visit.meter === null ? '' : visit.meter.level_db.toFixed(1),
      visit.note,
    ]),
  };
}

/**
 * `conditions.csv`: air and rain of the whole beach each date, and with `sands` a line a zone from
 * its logger, which reads a little off and falls silent now and then.
 */
export function conditionsTable(
  seed: number,
  weather: Weather,
  sands: readonly { readonly zone: string; readonly sand: Sand }[],
  first: number,
  last: number,
  clock: BeachClock,
): InventedTable {
  const random = randomStream(seed, 'weather book');
  const loggers = sands.map(({ zone, sand }) => ({
    zone,
    sand,
    off_c: random.normal(0, 0.15),
    silentFrom: first + random.below(260),
  }));
  const rows: string[][] = [];
  for (let day = first; day <= last; day++) {
    const { air_c, rain_mm } = weather.on(day);
    const air = random.chance(0.03) ? '' : (air_c + random.normal(0, 0.2)).toFixed(1);
    const rain = random.chance(0.03) ? '' : rain_mm.toFixed(1);
    rows.push([clock.date(day), '', '', air, rain]);
    for (const { zone, sand, off_c, silentFrom } of loggers) {
      const silent = (day >= silentFrom && day < silentFrom + 9) || random.chance(0.01);
      const read_c = sand.on(day) + off_c + random.normal(0, 0.05);
      if (!silent) rows.push([clock.date(day), zone, read_c.toFixed(2), '', '']);
    }
  }
  return {
    file: 'conditions.csv',
    columns: ['date', 'zone', 'sand_c', 'air_c', 'rain_mm'],
    rows,
  };
}

/** `volunteers.csv`: the invented people. */
export function volunteersTable(volunteers: readonly Volunteer[]): InventedTable {
  return {
    file: 'volunteers.csv',
    columns: ['volunteer', 'experience', 'zones', 'max_shifts_week', 'team'],
    rows: volunteers.map(({ name, experience, zones, maxShiftsWeek, team }) => [
      name,
      experience,
      zones.join(';'),
      String(maxShiftsWeek),
      team,
    ]),
  };
}

/** `availability.csv`: the nights each person offered, with times on the beach's clocks. */
export function availabilityTable(
  offers: ReadonlyMap<number, readonly Volunteer[]>,
  clock: BeachClock,
): InventedTable {
  return {
    file: 'availability.csv',
    columns: ['volunteer', 'night', 'from', 'to'],
    rows: [...offers].flatMap(([night, people]) =>
      people.map(({ name, from, to }) => [name, clock.date(night), from, to]),
    ),
  };
}
