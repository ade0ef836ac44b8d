import type { Random } from '../numerics/random.ts';
import { type BeachClock, MINUTE } from './beach-clock.ts';
import type { KnownNest } from './known-nests.ts';
import { readSurface, readWind } from './reading.ts';
import { type Air, airAsWritten, cameOut, expectMore, type VisitRecord } from './visit-record.ts';
import type { Volunteer } from './volunteers.ts';

/** Tracks from which people on this beach say that the nest has boiled. */
const BOIL_TRACKS = 10;

/**
 * One dawn over the nests of one zone, in shore order. Every old nest gets a line, young ones now
 * and then, and any nest to which something has happened. `nests` are those found by then.
 */
export function patrolDawn(
  random: Random,
  night: number,
  nests: readonly KnownNest[],
  by: Volunteer,
  clock: BeachClock,
  air: Air,
): VisitRecord[] {
  const start = clock.sunrise(night) - random.between(10, 35) * MINUTE;
  const pace_min = Math.min(1.5, 150 / (nests.length + 1));
  const records: VisitRecord[] = [];
  nests.forEach((known, turn) => {
    const moment = start + (turn * pace_min + random.between(0, 1)) * MINUTE;
    const record = lookAtDawn(random, night, known, by, moment, air);
    if (record !== null) records.push(record);
  });
  return records;
}

function lookAtDawn(
  random: Random,
  night: number,
  known: KnownNest,
  by: Volunteer,
  moment: number,
  air: Air,
): VisitRecord | null {
  const event = newMishap(known, night);
  const counted = tracksLeft(random, known, night, moment, air);
  const since = known.lookedAtDawn;
  known.lookedAtDawn = night;
  const young = known.layRecord.kind !== 'unknown' && night - known.found < 42;
  if (event === null && counted === 0 && young && !random.chance(0.3)) return null;

  const tracks = random.chance(0.97) ? counted : null;
  const gone = event === 'washout';
  const surface =
    !gone && random.chance(0.75) ? readSurface(random, by, known.sand.hollow_cm(), false) : null;
  if (tracks !== null && tracks >= BOIL_TRACKS) known.boilKnown ??= night;
  else if (tracks !== null && tracks > 0) expectMore(known, night, 0.9);
  else if (surface !== null && surface !== 'smooth')
    expectMore(known, night, surface === 'dip' ? 0.2 : 0.55);
  if (gone) known.ends = { night, counted: false };
  const missed = night - since > 1 && counted > 0 ? 'tracks may be older than last night' : '';
  return {
    nest: known.clutch.nest,
    moment,
    kind: 'morning',
    by,
    surface,
    sound: null,
    ...airAsWritten(random, air),
    tracks: gone ? null : tracks,
    event,
    watch: null,
    meter: null,
    note: missed,
  };
}

/** The gravest thing that befell a nest since anyone last looked at it by daylight. */
function newMishap({ fate, lookedAtDawn, found }: KnownNest, night: number) {
  let gravest: 'washover' | 'washout' | 'predation' | null = null;
  for (const mishap of fate.mishaps) {
    if (mishap.night <= Math.max(lookedAtDawn, found - 1) || mishap.night > night) continue;
    if (gravest !== 'washout') gravest = mishap.kind;
  }
  return gravest;
}

/**
 * Tracks someone counts at dawn: those of the night, thinned by wind and rain, and what is left of
 * earlier nights that nobody looked at. Few are easily overlooked. Fading is invented.
 */
function tracksLeft(
  random: Random,
  known: KnownNest,
  night: number,
  moment: number,
  air: Air,
): number {
  const { groups } = known;
  const last = groups.at(-1);
  if (last === undefined || last.moment < known.lookedAtDawn) return 0;
  if (random.chance(0.02)) return 0;
  const wiped = random.chance(wipes(air));
  let left = 0;
  for (let ago = 0; ago < 4 && night - ago > known.lookedAtDawn; ago++) {
    // A dawn look sees what came after the look of the dawn before.
    const dawn = moment - ago;
    const crawled = cameOut(known, dawn - 1, dawn);
    left += crawled * random.between(0.6, 0.95) * thins(air) * 0.35 ** ago;
  }
  if (wiped) left *= 0.04;
  const seen = Math.round(left);
  return random.chance(Math.exp(-seen / 2.2)) ? 0 : seen;
}

/** Chance that a night's weather wipes a whole set of tracks away. */
function wipes({ wind_ms, rain_mm }: Air): number {
  const blown = { calm: 0.01, breeze: 0.06, strong: 0.35 }[readWind(wind_ms)];
  return Math.min(0.9, blown + rain_mm / 60);
}

/** Share of single tracks that can still be told apart. */
function thins({ wind_ms, rain_mm }: Air): number {
  return 1 / (1 + (wind_ms / 11) ** 3 + rain_mm / 14);
}
