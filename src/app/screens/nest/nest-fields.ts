import {
  type Measures,
  foot_m,
  lengthToType,
  lengthTyped_m,
} from '../../../core/domain/measures.ts';
import { NestDetails, NestId } from '../../../core/domain/nest.ts';
import { parseNight } from '../../../core/domain/night.ts';
import type { FactOf } from '../../../core/log/season-record.ts';

/** The fields of a nest's form as they are typed; '' = not known. */
export interface NestFields {
  readonly nest: string;
  readonly species: string;
  readonly lay_night: string;
  readonly lay_night_latest: string;
  readonly zone: string;
  readonly shore_m: string;
  readonly latitude: string;
  readonly longitude: string;
  readonly clutch: string;
  readonly relocated: string;
  readonly screened: string;
  readonly light_exposure: string;
}
export type NestField = keyof NestFields;

/** In which measures `shore_m` is typed, and what is on record, which its untouched field says. */
export interface ShoreField {
  readonly measures: Measures;
  readonly held_m: number | null;
}

export type ReadNest =
  | { readonly ok: true; readonly nest: NestId; readonly details: NestDetails }
  /** What is wrong with which field, and what to write instead. */
  | { readonly ok: false; readonly problems: ReadonlyMap<NestField, string> };

export const emptyFields: NestFields = {
  nest: '',
  species: '',
  lay_night: '',
  lay_night_latest: '',
  zone: '',
  shore_m: '',
  latitude: '',
  longitude: '',
  clutch: '',
  relocated: '',
  screened: '',
  light_exposure: '',
};

/** A registered nest as a form shows it, its length in the measures chosen. */
export function fieldsOf(
  { nest, details }: FactOf<'nest-registered'>,
  measures: Measures,
): NestFields {
  const { shore_m } = details;
  const text = (value: string | number | boolean | null | undefined): string =>
    value === null || value === undefined
      ? ''
      : typeof value === 'boolean'
        ? value
          ? 'yes'
          : 'no'
        : String(value);
  return {
    nest,
    species: text(details.species),
    lay_night: text(details.lay_night),
    lay_night_latest: text(details.lay_night_latest),
    zone: text(details.zone),
    shore_m: text(typeof shore_m === 'number' ? lengthToType(shore_m, measures) : null),
    latitude: text(details.latitude),
    longitude: text(details.longitude),
    clutch: text(details.clutch),
    relocated: text(details.relocated),
    screened: text(details.screened),
    light_exposure: text(details.light_exposure),
  };
}

/** Bounds a number on record must keep to; the message names them as they would be typed. */
const bounds = {
  shore_m: { least: -100_000, most: 100_000, whole: false },
  latitude: { least: -90, most: 90, whole: false },
  longitude: { least: -180, most: 180, whole: false },
  clutch: { least: 0, most: 300, whole: true },
  light_exposure: { least: 0, most: 3, whole: true },
} as const;

/**
 * Reads a nest's form. Blank is not known, never zero. `taken` holds the names of the nests that are
 * there already; leave out the nest's own.
 */
export function readNestFields(
  fields: NestFields,
  taken: ReadonlySet<string>,
  shore: ShoreField,
): ReadNest {
  const problems = new Map<NestField, string>();
  const name = fields.nest.trim();
  if (name === '') problems.set('nest', 'Give the name that stands on its marker, such as W-014.');
  else if (taken.has(name))
    problems.set('nest', `${name} is on record already. Choose another name.`);

  const number = (field: keyof typeof bounds): number | null => {
    const text = fields[field].trim().replace(',', '.');
    if (text === '') return null;
    const { least, most, whole } = bounds[field];
    const typed = /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : NaN;
    const isFeet = field === 'shore_m' && shore.measures === 'feet';
    const value = field === 'shore_m' ? lengthTyped_m(typed, shore.measures, shore.held_m) : typed;
    if (value >= least && value <= most && (!whole || Number.isInteger(value))) return value;
    const kind = whole ? 'a whole number' : 'a number';
    const bound = (limit: number): number => (isFeet ? Math.trunc(limit / foot_m) : limit);
    problems.set(
      field,
      `“${fields[field]}” is not ${kind} from ${bound(least)} to ${bound(most)}.`,
    );
    return null;
  };
  const night = (field: 'lay_night' | 'lay_night_latest'): string | null => {
    const text = fields[field].trim();
    if (text === '') return null;
    if (parseNight(text) !== null) return text;
    problems.set(field, `“${text}” is not a date that exists. Write it like 2026-07-20.`);
    return null;
  };
  const yesNo = (text: string): boolean | null =>
    text === 'yes' ? true : text === 'no' ? false : null;

  const lay_night = night('lay_night');
  const lay_night_latest = night('lay_night_latest');
  if (lay_night !== null && lay_night_latest !== null && lay_night_latest < lay_night) {
    problems.set('lay_night_latest', 'The last possible night lies before the first.');
  }
  const latitude = number('latitude');
  const longitude = number('longitude');
  if ((latitude === null) !== (longitude === null) && problems.size === 0) {
    if (latitude === null) {
      problems.set('latitude', 'A position needs both. Give the latitude too, or clear the other.');
    } else {
      problems.set(
        'longitude',
        'A position needs both. Give the longitude too, or clear the other.',
      );
    }
  }
  const read = NestDetails.safeParse({
    species: fields.species === '' ? null : fields.species,
    lay_night,
    lay_night_latest,
    zone: fields.zone.trim() === '' ? null : fields.zone.trim(),
    latitude,
    longitude,
    shore_m: number('shore_m'),
    clutch: number('clutch'),
    relocated: yesNo(fields.relocated),
    screened: yesNo(fields.screened),
    light_exposure: number('light_exposure'),
  });
  if (!read.success) problems.set('species', 'Choose a species from the list, or leave it blank.');
  const id = NestId.safeParse(name);
  if (problems.size > 0 || !read.success || !id.success) return { ok: false, problems };
  return { ok: true, nest: id.data, details: read.data };
}

/** The fields of a nest that a correction has to name: those that differ; null = not known after all. */
export function nestChanges(
  before: FactOf<'nest-registered'>,
  after: { readonly nest: NestId; readonly details: NestDetails },
): Readonly<Record<string, unknown>> {
  const changes: Record<string, unknown> = {};
  if (after.nest !== before.nest) changes['nest'] = after.nest;
  const [old, now]: [Record<string, unknown>, Record<string, unknown>] = [
    { ...before.details },
    { ...after.details },
  ];
  for (const [field, value] of Object.entries(now)) {
    if ((old[field] ?? null) !== (value ?? null)) changes[field] = value ?? null;
  }
  return changes;
}
