import type { Rain, Sound, Surface, Wind } from '../domain/visit.ts';
import type { Random } from '../numerics/random.ts';
import { HOUR } from './beach-clock.ts';
import type { Listening } from './digging.ts';
import type { Mishap } from './fate.ts';
import type { KnownNest } from './known-nests.ts';
import { readRain, readSound, readSurface, readWind } from './reading.ts';
import type { Volunteer } from './volunteers.ts';

/** One line of somebody's notes; null = not looked or not written down. Moments in days. */
export interface VisitRecord {
  readonly nest: string;
  readonly moment: number;
  readonly kind: 'evening' | 'morning';
  readonly by: Volunteer;
  readonly surface: Surface | null;
  readonly sound: Sound | null;
  readonly wind: Wind | null;
  readonly rain: Rain | null;
  readonly tracks: number | null;
  readonly event: Mishap['kind'] | null;
  readonly watch: { readonly from: number; readonly to: number; readonly emerged: number } | null;
  readonly meter: (Listening & { readonly level_db: number }) | null;
  readonly note: string;
}

/** The air in which a look is taken. */
export interface Air {
  readonly wind_ms: number;
  readonly rain_mm: number;
}

/** Wind and rain as someone writes them, or leaves out. */
export function airAsWritten(random: Random, { wind_ms, rain_mm }: Air) {
  return {
    wind: random.chance(0.92) ? readWind(wind_ms) : null,
    rain: random.chance(0.92) ? readRain(rain_mm) : null,
  };
}

/** Ten minutes of looking and listening at a nest after sunset; moves what its people expect. */
export function lookByEvening(
  random: Random,
  known: KnownNest,
  by: Volunteer,
  moment: number,
  air: Air,
): VisitRecord {
  const surface = random.chance(0.97)
    ? readSurface(random, by, known.sand.hollow_cm(), true)
    : null;
  const listens = random.chance(0.88);
  const heard = known.digging.listen(random, moment, 10, by.instrument, air.wind_ms);
  const sound = listens ? readSound(random, by, heard, air.wind_ms) : null;
  const metered = listens && by.meter && by.instrument !== 'stethoscope';
  expectMore(known, Math.floor(moment), promiseOf(surface, sound));
  return {
    nest: known.clutch.nest,
    moment,
    kind: 'evening',
    by,
    surface,
    sound,
    ...airAsWritten(random, air),
    tracks: null,
    event: null,
    watch: null,
    meter: metered ? { ...heard, level_db: loudness_db(random, heard, air.wind_ms) } : null,
    note: random.chance(0.03) ? random.choice(ASIDES) : '',
  };
}

const ASIDES = [
  'crab hole beside the marker',
  'people walked past while we listened',
  'sand wet after the shower',
  'marker leans, still readable',
  'dog tracks across the nest',
  'two people listened and agreed',
];

/** Decibels over the noise floor: livelier is louder, wind lifts the floor (invented). */
function loudness_db(random: Random, heard: Listening, wind_ms: number): number {
  const lively_db = 7 * Math.log10(1 + heard.scratch_per_min) - 0.5 * Math.max(0, wind_ms - 3);
  return Math.max(0, lively_db + random.normal(1.5, 1));
}

const SURFACE_PROMISE: Record<Surface, number> = {
  smooth: 0,
  dip: 0.25,
  depression: 0.65,
  caved: 0.8,
};
const SOUND_PROMISE: Record<Sound, number> = {
  quiet: 0,
  occasional: 0.2,
  steady: 0.55,
  waterfall: 0.95,
};

function promiseOf(surface: Surface | null, sound: Sound | null): number {
  const seen = surface === null ? 0 : SURFACE_PROMISE[surface];
  const heard = sound === null ? 0 : SOUND_PROMISE[sound];
  return Math.max(seen, heard) + 0.3 * Math.min(seen, heard);
}

/** New signs replace fainter or older ones; a plain look lowers old hopes. */
export function expectMore(known: KnownNest, night: number, promise: number): void {
  const faded = hopeFor(known, night) * 0.6;
  known.promise = Math.max(promise, faded);
  known.promised = night;
}

/** What the newest signs still promise on a night. */
export function hopeFor(known: KnownNest, night: number): number {
  return known.promise * Math.exp(-(night - known.promised) / 3);
}

/** What came out of a nest from one moment to another. */
export function cameOut(known: KnownNest, from: number, to: number): number {
  let sum = 0;
  for (const group of known.groups)
    if (group.moment >= from && group.moment < to) sum += group.hatchlings;
  return sum;
}

/** A watch at a nest: what it saw, noted when it ended. It stays half an hour beyond a boil. */
export function watchAt(
  random: Random,
  known: KnownNest,
  by: Volunteer,
  from: number,
  hours: number,
  air: Air,
): VisitRecord {
  let to = from + hours * HOUR;
  for (const group of known.groups)
    if (group.moment >= from && group.moment < to) to = Math.max(to, group.moment + 0.6 * HOUR);
  const out = cameOut(known, from, to);
  const emerged = out < 5 ? out : Math.round(out * random.between(0.93, 1.03));
  return {
    nest: known.clutch.nest,
    moment: to,
    kind: 'evening',
    by,
    surface: null,
    sound: null,
    ...airAsWritten(random, air),
    tracks: null,
    event: null,
    watch: { from, to, emerged },
    meter: null,
    note: '',
  };
}
