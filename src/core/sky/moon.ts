import {
  Body,
  Equator,
  Horizon,
  Illumination,
  MoonPhase,
  Observer,
  SearchRiseSet,
} from 'astronomy-engine';
import type { Crossing, Span } from './crossing.ts';
import { possiblePlace, type Place } from './place.ts';

const DAY_MS = 86_400_000;
const MINUTE_MS = 60_000;
/** The Moon's radius as seen from the Earth: its upper edge is up when its centre is above this. */
const upperEdgeUp_deg = -0.26;

/** The Moon as a sitter sees it at one instant. */
export interface MoonView {
  /** Of the centre, as seen: parallax and mean refraction included. Below 0: not up. Degrees. */
  readonly altitude_deg: number;
  /** Clockwise from true north, degrees. */
  readonly azimuth_deg: number;
  /** Share of the disc that is lit, 0 at new moon to 1 at full. */
  readonly illuminatedShare: number;
  /** True from new moon to full. */
  readonly waxing: boolean;
}

/** A moonrise or moonset, or why this night has none. */
export type MoonCrossing = Crossing | { readonly kind: 'not tonight' };

/** The Moon through one night. */
export interface MoonTimes {
  /** The first rise from noon to noon. `not tonight`: it sets, having risen before noon. */
  readonly rise: MoonCrossing;
  /** The first set from noon to noon. `not tonight`: it rises and sets after the next noon. */
  readonly set: MoonCrossing;
  /** When it is above the horizon, in order, cut at the two noons. */
  readonly up: readonly Span[];
}

/** Where the Moon stands and how much of it is lit, at an instant. */
export function moonAt(place: Place, at_ms: number): MoonView {
  const observer = observerAt(place);
  const at = new Date(at_ms);
  const seen = Equator(Body.Moon, at, observer, true, true);
  const { altitude, azimuth } = Horizon(at, observer, seen.ra, seen.dec, 'normal');
  return {
    altitude_deg: altitude,
    azimuth_deg: azimuth,
    illuminatedShare: Illumination(Body.Moon, at).phase_fraction,
    waxing: MoonPhase(at) < 180,
  };
}

/**
 * Moonrise and moonset from local noon to local noon (`nightBounds` gives both), upper edge on a sea
 * horizon with mean refraction. At high latitudes the Moon may stay up or down for days.
 */
export function moonTimes(place: Place, nightFrom_ms: number, nightTo_ms: number): MoonTimes {
  const observer = observerAt(place);
  const rises = crossings_ms(observer, 1, nightFrom_ms, nightTo_ms);
  const sets = crossings_ms(observer, -1, nightFrom_ms, nightTo_ms);
  const [rise_ms, set_ms] = [rises[0], sets[0]];
  if (rise_ms === undefined && set_ms === undefined) {
    const middle_ms = (nightFrom_ms + nightTo_ms) / 2;
    return moonAt(place, middle_ms).altitude_deg > upperEdgeUp_deg
      ? {
          rise: { kind: 'always up' },
          set: { kind: 'always up' },
          up: [{ from_ms: nightFrom_ms, to_ms: nightTo_ms }],
        }
      : { rise: { kind: 'always down' }, set: { kind: 'always down' }, up: [] };
  }
  return {
    rise: firstOf(rise_ms),
    set: firstOf(set_ms),
    up: upBetween(rises, sets, nightFrom_ms, nightTo_ms),
  };
}

function observerAt(place: Place): Observer {
  const { latitude_deg, longitude_deg } = possiblePlace(place);
  return new Observer(latitude_deg, longitude_deg, 0);
}

function firstOf(time_ms: number | undefined): MoonCrossing {
  return time_ms === undefined ? { kind: 'not tonight' } : { kind: 'at', time_ms };
}

/** Every rise (1) or set (-1) from one instant to another, in order. */
function crossings_ms(observer: Observer, direction: 1 | -1, from_ms: number, to_ms: number) {
  const found: number[] = [];
  for (let after_ms = from_ms; after_ms < to_ms;) {
    const days = (to_ms - after_ms) / DAY_MS;
    const next = SearchRiseSet(Body.Moon, observer, direction, new Date(after_ms), days);
    if (next === null || next.date.getTime() >= to_ms) break;
    found.push(next.date.getTime());
    after_ms = next.date.getTime() + MINUTE_MS;
  }
  return found;
}

/** The spans between each rise and the set after it, cut at both ends; rises and sets alternate. */
function upBetween(
  rises: readonly number[],
  sets: readonly number[],
  from_ms: number,
  to_ms: number,
): Span[] {
  const startsUp = (sets[0] ?? Infinity) < (rises[0] ?? Infinity);
  const starts = startsUp ? [from_ms, ...rises] : rises;
  return starts.map((start_ms, index) => ({ from_ms: start_ms, to_ms: sets[index] ?? to_ms }));
}
