import { boilTracksOf } from '../domain/boil-tracks.ts';
import { type Night, nightBounds, parseNight } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { sunTimes } from '../sky/sun.ts';
import type { Place } from '../sky/place.ts';
import { type Dusk, type HourCurve, hourOfEmergence, untoldDusk } from './hour-of-emergence.ts';

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
  const dusks = new Map<Night, Dusk>();
  const curves = new Map<string, HourCurve>();
  const dusk = (night: Night): Dusk => {
    let known = dusks.get(night);
    if (known === undefined) dusks.set(night, (known = duskOf(place, night, zone)));
    return known;
  };
  const boilTracks = boilTracksOf(programme);
  return {
    zone,
    place,
    boilTracks,
    pairs: programme.pairs ?? defaultPairs,
    dusk,
    hours(night, wet) {
      const key = `${night}|${String(wet)}`;
      let curve = curves.get(key);
      if (curve === undefined) curves.set(key, (curve = hourOfEmergence(dusk(night), wet)));
      return curve;
    },
    wetDay: (night) => wetDays.has(night),
    key: JSON.stringify([zone, place, boilTracks, [...wetDays].sort()]),
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
