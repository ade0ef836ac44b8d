import { boilTracksOf } from '../../domain/boil-tracks.ts';
import type { NestDetails } from '../../domain/nest.ts';
import { formatNight } from '../../domain/night.ts';
import { emergenceAt } from '../../emergence/nest-emergence.ts';
import { successOf } from '../../inventory/success.ts';
import type { NestRecord, SeasonRecord } from '../../log/season-record.ts';
import {
  type Precision,
  generalisation,
  receiver_m,
  roundingOf,
  withheld,
} from '../public/generalise.ts';
import { type Box, boxOf } from './bounding-box.ts';

/** A nest as a GeoJSON Feature; without a position its geometry is null. */
interface NestFeature {
  readonly type: 'Feature';
  readonly id: string;
  readonly geometry: {
    readonly type: 'Point';
    /** Longitude, then latitude, WGS 84. */
    readonly coordinates: readonly [number, number];
  } | null;
  readonly properties: Readonly<Record<string, string | number | boolean | null>>;
}

interface FeatureCollection {
  readonly type: 'FeatureCollection';
  readonly bbox?: Box;
  readonly features: readonly NestFeature[];
}

/**
 * The nests of a season as one GeoJSON text (RFC 7946), with what they came to. Properties that
 * `nests.csv` has too stand under its names, so that nests can be made of them again. `precision` says to
 * which step the positions of the record were rounded; null = they are as they were taken.
 */
export function seasonGeojson(record: SeasonRecord, precision: Precision | null): string {
  const features = [...record.nests.values()].map((nest) => featureOf(nest, record, precision));
  const bbox = boxOf(
    features.flatMap(({ geometry }) => (geometry === null ? [] : [geometry.coordinates])),
  );
  const collection: FeatureCollection = {
    type: 'FeatureCollection',
    ...(bbox === null ? {} : { bbox }),
    features,
  };
  return `${JSON.stringify(collection, null, 1)}\n`;
}

function featureOf(
  nest: NestRecord,
  { zone, programme }: SeasonRecord,
  precision: Precision | null,
): NestFeature {
  const { details } = nest.registration.fact;
  const { boil, boilBy, totals } = emergenceAt(nest, zone, boilTracksOf(programme));
  const counted = totals.find(({ emergence }) => emergence === 'boil');
  const inventory = nest.inventories.at(-1)?.fact.details;
  const success = inventory === undefined ? null : successOf(inventory, details.clutch ?? null);
  const geometry = pointOf(details);
  return {
    type: 'Feature',
    id: nest.nest.id,
    geometry,
    properties: {
      nest: nest.nest.id,
      ...described(details),
      boil_night: boil === null ? null : formatNight(boil),
      boil_known_by: boilBy,
      emerged: counted?.emerged ?? null,
      reached_water: counted?.reachedWater ?? null,
      hatch_success: success?.hatch ?? null,
      emergence_success: success?.emergence ?? null,
      success_of: success?.denominator ?? null,
      ...(geometry === null ? {} : quality(precision)),
      ...(precision === null ? {} : { informationWithheld: withheld }),
    },
  };
}

/** What Darwin Core has terms for in the quality of a position, under those terms. */
function quality(precision: Precision | null): Readonly<Record<string, string | number>> {
  if (precision === null) return { coordinateUncertaintyInMeters: receiver_m };
  return {
    coordinateUncertaintyInMeters: roundingOf(precision),
    coordinatePrecision: precision,
    dataGeneralizations: generalisation(precision),
  };
}

/** The fields of a nest besides its position; null = not known. */
function described(details: NestDetails): NestFeature['properties'] {
  return {
    species: details.species ?? null,
    lay_night: details.lay_night ?? null,
    lay_night_latest: details.lay_night_latest ?? null,
    zone: details.zone ?? null,
    shore_m: details.shore_m ?? null,
    clutch: details.clutch ?? null,
    relocated: details.relocated ?? null,
    screened: details.screened ?? null,
    light_exposure: details.light_exposure ?? null,
  };
}

/** More than seven decimals are a centimetre and less: false precision (RFC 7946, section 11.2). */
const decimals = 7;

function pointOf({ latitude, longitude }: NestDetails): NestFeature['geometry'] {
  if (typeof latitude !== 'number' || typeof longitude !== 'number') return null;
  const plain = (degrees: number): number => Number(degrees.toFixed(decimals)) + 0;
  return { type: 'Point', coordinates: [plain(longitude), plain(latitude)] };
}
