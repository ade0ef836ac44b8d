import type { NestDetails } from '../../domain/nest.ts';
import type { Programme, Zone } from '../../domain/programme.ts';
import { fold } from '../../log/fold.ts';
import type { FactOf, SeasonRecord, Standing } from '../../log/season-record.ts';
import { type Precision, generalisation, generalise, withheld } from './generalise.ts';

/** Columns that say in a public table what was done to it. */
const told = {
  uncertainty: 'coordinate_uncertainty_m',
  generalised: 'data_generalizations',
  withheld: 'information_withheld',
} as const;

/** The kinds of facts that the public may see something of; people and plans are none of them. */
type Shown = FactOf<
  | 'nest-registered'
  | 'visit-noted'
  | 'orientation-recorded'
  | 'inventory-recorded'
  | 'conditions-noted'
>;

/**
 * The season as it may be shown to anybody: positions rounded, distances along the shore left out, zones
 * under numbers, no people, no remarks, no columns of one's own, no history. Every export that starts
 * from it is safe in the same way.
 */
export function publicRecord(record: SeasonRecord, precision: Precision): SeasonRecord {
  const zones = zoneNumbers(record);
  const standings: readonly Standing<Shown>[] = [
    ...[...record.nests.values()].flatMap(({ registration, notes, orientations, inventories }) => [
      registration,
      ...notes.values(),
      ...orientations,
      ...inventories,
    ]),
    ...record.conditions,
  ];
  const facts = standings
    .filter(({ withdrawn }) => !withdrawn)
    .map(({ fact }) => publicFact(fact, zones, precision));
  return fold([...facts, ...programmeFact(record, zones, precision)], record.zone);
}

/** `zone 1`, `zone 2` ... by the names of zones, those of the programme first. */
function zoneNumbers(record: SeasonRecord): ReadonlyMap<string, string> {
  const names = new Set((record.programme.zones ?? []).map(({ zone }) => zone));
  const used = [...record.nests.values()].flatMap(({ nest }) => nest.zone ?? []);
  const days = record.conditions.flatMap(({ fact }) => fact.details.zone ?? []);
  for (const name of [...used, ...days].sort()) names.add(name);
  return new Map([...names].map((name, index) => [name, `zone ${index + 1}`]));
}

function publicFact(fact: Shown, zones: ReadonlyMap<string, string>, precision: Precision): Shown {
  const { source: _, ...bare } = { ...fact, author: '', device: '' };
  const zoneOf = (name: string | null | undefined) => zones.get(name ?? '') ?? null;
  switch (bare.kind) {
    case 'nest-registered':
      return publicNest(bare, zoneOf(bare.details.zone), precision);
    case 'visit-noted': {
      const { observer: _observer, note: _note, ...details } = bare.details;
      return { ...bare, details };
    }
    case 'orientation-recorded': {
      // Each of these is free text, or names a lamp that somebody could be found by.
      const {
        note: _note,
        outcome: _outcome,
        lamps: _lamps,
        light_source: _light,
        ...details
      } = bare.details;
      return { ...bare, details: { ...details, zone: zoneOf(details.zone) } };
    }
    case 'inventory-recorded': {
      const { note: _note, ...details } = bare.details;
      return { ...bare, details };
    }
    case 'conditions-noted':
      return { ...bare, details: { ...bare.details, zone: zoneOf(bare.details.zone) } };
  }
}

function publicNest(
  fact: FactOf<'nest-registered'>,
  zone: string | null,
  precision: Precision,
): FactOf<'nest-registered'> {
  const { latitude, longitude, shore_m: _, ...details } = fact.details;
  const isPlaced = typeof latitude === 'number' && typeof longitude === 'number';
  const position = isPlaced ? generalise(latitude, longitude, precision) : null;
  const placed: NestDetails =
    position === null
      ? { ...details, zone }
      : {
          ...details,
          zone,
          latitude: position.latitude_deg,
          longitude: position.longitude_deg,
        };
  const extra: Record<string, string> =
    position === null
      ? { [told.withheld]: withheld }
      : {
          [told.uncertainty]: String(position.uncertainty_m),
          [told.generalised]: generalisation(precision),
          [told.withheld]: withheld,
        };
  return { ...fact, details: placed, source: { row: 0, extra } };
}

/** The programme with what it says of its place rounded, and nothing that only it knows of. */
function programmeFact(
  { programme, events }: SeasonRecord,
  zones: ReadonlyMap<string, string>,
  precision: Precision,
): readonly FactOf<'programme-described'>[] {
  const described = [...events.values()].find(({ kind }) => kind === 'programme-described');
  if (described?.kind !== 'programme-described') return [];
  const { source: _, ...bare } = { ...described, author: '', device: '' };
  return [{ ...bare, programme: publicProgramme(programme, zones, precision) }];
}

function publicProgramme(
  programme: Programme,
  zones: ReadonlyMap<string, string>,
  precision: Precision,
): Programme {
  const { name, time_zone, invented, boil_tracks, latitude, longitude } = programme;
  const place =
    latitude === undefined || longitude === undefined
      ? null
      : generalise(latitude, longitude, precision);
  return {
    ...given({ name, time_zone, invented, boil_tracks }),
    ...(place === null ? {} : { latitude: place.latitude_deg, longitude: place.longitude_deg }),
    zones: (programme.zones ?? []).map(({ zone, seaward_deg }): Zone => ({
      zone: zones.get(zone) ?? zone,
      ...given({ seaward_deg }),
    })),
  };
}

/** A copy without what is undefined. */
function given<Values extends object>(
  values: Values,
): { [Key in keyof Values]?: NonNullable<Values[Key]> } {
  const kept = Object.entries(values).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept) as { [Key in keyof Values]?: NonNullable<Values[Key]> };
}
