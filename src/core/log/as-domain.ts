import { parseInstant } from '../domain/instant.ts';
import type { Nest } from '../domain/nest.ts';
import { type Night, asNight, nightOf, parseNight, wallClock } from '../domain/night.ts';
import type { Visit, VisitDetails } from '../domain/visit.ts';
import type { FactOf } from './season-record.ts';

const night = (text: string | null | undefined): Night | null =>
  text === null || text === undefined ? null : parseNight(text);

/**
 * The nest that a registration describes. One bound of the lay night alone stands for both; two in
 * the wrong order are taken in the right one.
 */
export function nestOf({ nest, details }: FactOf<'nest-registered'>): Nest {
  const from = night(details.lay_night) ?? night(details.lay_night_latest);
  const to = night(details.lay_night_latest) ?? from;
  const isSwapped = from !== null && to !== null && to < from;
  return {
    id: nest,
    species: details.species ?? null,
    layNight: isSwapped ? to : from,
    layNightLatest: isSwapped ? from : to,
    zone: details.zone ?? null,
    latitude_deg: details.latitude ?? null,
    longitude_deg: details.longitude ?? null,
    shore_m: details.shore_m ?? null,
    clutch_eggs: details.clutch ?? null,
    relocated: details.relocated ?? null,
    screened: details.screened ?? null,
    lightExposure: details.light_exposure ?? null,
  };
}

/**
 * The visit that a note describes, with the night and the half of it in the programme's zone. A
 * watch that ends before it begins says nothing of when there was watching, so it is no watch.
 */
export function visitOf({ id, nest, at, details }: FactOf<'visit-noted'>, zone: string): Visit {
  const at_ms = parseInstant(at) ?? 0;
  const from_ms = parseInstant(details.watched_from ?? '');
  const to_ms = parseInstant(details.watched_to ?? '');
  return {
    id,
    nest,
    at_ms,
    ...halfNight(at_ms, details.kind ?? null, zone),
    observer: details.observer ?? null,
    experience: details.experience ?? null,
    surface: details.surface ?? null,
    sound: details.sound ?? null,
    instrument: details.instrument ?? null,
    wind: details.wind ?? null,
    rain: details.rain ?? null,
    tracks: details.tracks ?? null,
    mishap: details.event ?? null,
    watch: from_ms === null || to_ms === null || to_ms < from_ms ? null : { from_ms, to_ms },
    emerged: details.emerged ?? null,
    scratch_per_min: details.scratch_per_min ?? null,
    active_share: details.active_share ?? null,
    level_db: details.level_db ?? null,
    meter: meterOf(details),
    note: details.note ?? null,
  };
}

/** All four likelihoods, or none; those of a table need not sum to one. */
function meterOf(details: VisitDetails): readonly number[] | null {
  const { meter_quiet, meter_occasional, meter_steady, meter_waterfall } = details;
  const given = [meter_quiet, meter_occasional, meter_steady, meter_waterfall];
  const known = given.filter((value) => value !== null && value !== undefined);
  const sum = known.reduce((total, value) => total + value, 0);
  return known.length < given.length || sum <= 0 ? null : known.map((value) => value / sum);
}

/**
 * A morning visit closes the night before, whatever the hour it was made; without a word on the
 * kind, from 04:00 to noon counts as morning (a sitter's dawn patrol; common practice, no source).
 */
function halfNight(
  at_ms: number,
  kind: 'evening' | 'morning' | null,
  zone: string,
): Pick<Visit, 'night' | 'half'> {
  const { day, minute } = wallClock(at_ms, zone);
  const isMorning = kind === 'morning' || (kind === null && minute >= 240 && minute < 720);
  return isMorning
    ? { night: asNight(day - 1), half: 'dawn' }
    : { night: nightOf(at_ms, zone), half: 'evening' };
}
