import { boilTracksOf } from '../domain/boil-tracks.ts';
import { type Night, nightBounds, parseNight } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { sunTimes } from '../sky/sun.ts';
import type { Place } from '../sky/place.ts';
import { type Dusk, type HourCurve, hourOfEmergence, untoldDusk } from './hour-of-emergence.ts';
import { moonlight } from './moonlight.ts';

/** Pairs of sitters out on an evening (site setting). */
const defaultPairs = 3;
/** Rain in a day that makes an evening wet, millimetres (guess). */
const wetDay_mm = 2;

/** What all nests of a programme have in common for the odds of one season. */
export interface Site {
  readonly zone: string;
  readonly place: Place | null;
  readonly boilTracks: number;
  readonly pairs: number;
  readonly dusk: (night: Night) => Dusk;
  /** Share of boils begun by a moment of a night; a wet evening known of by the weather records. */
  readonly hours: (night: Night, wet: boolean) => HourCurve;
  readonly wetDay: (night: Night) => boolean;
  /** Moonlight in the hours of emergence, 0 none to 1; 0.5 where the place is not known. */
  readonly moonlight: (night: Night) => number;
  /** Changes whenever something above does. */
  readonly key: string;
}

/** The site as the record describes it; sunset by the programme's position, else its nests'. */
export function siteOf(record: SeasonRecord): Site {
  const { zone, programme } = record;
  const place = placeOf(record);
  const wetDays = new Set<Night>();
  for (const { fact } of record.conditions) {
    const night = parseNight(fact.details.date);
    if (night !== null && (fact.details.rain_mm ?? 0) >= wetDay_mm) wetDays.add(night);
  }
  const dusk = once((night) => duskOf(place, night, zone));
  const dry = once((night) => hourOfEmergence(dusk(night), false));
  const wet = once((night) => hourOfEmergence(dusk(night), true));
  const boilTracks = boilTracksOf(programme);
  return {
    zone,
    place,
    boilTracks,
    pairs: programme.pairs ?? defaultPairs,
    dusk,
    hours: (night, isWet) => (isWet ? wet : dry)(night),
    wetDay: (night) => wetDays.has(night),
    moonlight: once((night) => moonlight(place, dusk(night), dry(night))),
    key: JSON.stringify([zone, place, boilTracks, [...wetDays].sort()]),
  };
}

/** The same, worked out once for each night. */
function once<Value>(of: (night: Night) => Value): (night: Night) => Value {
  const known = new Map<Night, Value>();
  return (night) => {
    let value = known.get(night);
    if (value === undefined) known.set(night, (value = of(night)));
    return value;
  };
}

/** Whether two states of a record describe the same site: one note more changes nothing of it. */
export function sameSite(a: SeasonRecord, b: SeasonRecord): boolean {
  return (
    a === b ||
    (a.programme === b.programme &&
      a.zone === b.zone &&
      a.conditions === b.conditions &&
      (a.nests === b.nests || b.programme.latitude !== undefined))
  );
}

function duskOf(place: Place | null, night: Night, zone: string): Dusk {
  if (place === null) return untoldDusk(night, zone);
  const { from_ms, to_ms } = nightBounds(night, zone);
  const { sunset, sunrise } = sunTimes(place, from_ms, to_ms);
  if (sunset.kind !== 'at' || sunrise.kind !== 'at') return untoldDusk(night, zone);
  return { sunset_ms: sunset.time_ms, sunrise_ms: sunrise.time_ms };
}

function placeOf({ programme, nests }: SeasonRecord): Place | null {
  if (programme.latitude !== undefined && programme.longitude !== undefined) {
    return { latitude_deg: programme.latitude, longitude_deg: programme.longitude };
  }
  for (const { nest } of nests.values()) {
    if (nest.latitude_deg !== null && nest.longitude_deg !== null) {
      return { latitude_deg: nest.latitude_deg, longitude_deg: nest.longitude_deg };
    }
  }
  return null;
}
