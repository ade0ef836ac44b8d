import type { Crossing, Span } from './crossing.ts';
import { moonAt, moonTimes, type MoonTimes, type MoonView } from './moon.ts';
import type { Place } from './place.ts';
import { sunTimes, type SunTimes } from './sun.ts';

/**
 * The twilight after whose end a sitter calls it dark. Nautical: the sea horizon is gone.
 * Astronomical: the Sun adds nothing to the light of the sky.
 */
export type Twilight = 'civil' | 'nautical' | 'astronomical';

/** When one night is dark, and when it is dark with no moon in the sky. */
export interface Darkness {
  readonly sun: SunTimes;
  readonly moon: MoonTimes;
  /** From the end of twilight to its return; `never` in the bright nights of high latitudes. */
  readonly dark: ({ readonly kind: 'dark' } & Span) | { readonly kind: 'never' };
  /** The parts of the dark with the Moon below the horizon, in order; empty when there are none. */
  readonly moonless: readonly Span[];
  /** Minutes of `moonless` together. */
  readonly moonless_min: number;
  /** The Moon in the middle of the dark, or at solar midnight when it never gets dark. */
  readonly moonAtMiddle: MoonView;
}

/**
 * When it is dark and without moon in the night from local noon to local noon (`nightBounds` gives
 * both). A thin crescent counts as a moon: `moonAtMiddle.illuminatedShare` says how much it matters.
 * Where the Sun stays below the twilight's level all day, the dark fills the night from noon to noon.
 */
export function darkness(
  place: Place,
  nightFrom_ms: number,
  nightTo_ms: number,
  endOf: Twilight = 'astronomical',
): Darkness {
  const sun = sunTimes(place, nightFrom_ms, nightTo_ms);
  const moon = moonTimes(place, nightFrom_ms, nightTo_ms);
  const [dusk, dawn] = twilightOf(sun, endOf);
  const from_ms = timeOr(dusk, nightFrom_ms);
  const to_ms = timeOr(dawn, nightTo_ms);
  if (from_ms === null || to_ms === null) {
    const moonAtMiddle = moonAt(place, sun.solarMidnight_ms);
    return { sun, moon, dark: { kind: 'never' }, moonless: [], moonless_min: 0, moonAtMiddle };
  }
  const moonless = without({ from_ms, to_ms }, moon.up);
  const moonless_ms = moonless.reduce((sum, span) => sum + span.to_ms - span.from_ms, 0);
  return {
    sun,
    moon,
    dark: { kind: 'dark', from_ms, to_ms },
    moonless,
    moonless_min: moonless_ms / 60_000,
    moonAtMiddle: moonAt(place, (from_ms + to_ms) / 2),
  };
}

function twilightOf(sun: SunTimes, twilight: Twilight): [dusk: Crossing, dawn: Crossing] {
  switch (twilight) {
    case 'civil':
      return [sun.civilDusk, sun.civilDawn];
    case 'nautical':
      return [sun.nauticalDusk, sun.nauticalDawn];
    case 'astronomical':
      return [sun.astronomicalDusk, sun.astronomicalDawn];
  }
}

/** The moment of a crossing; `end_ms` when the Sun is always down; null when it is always up. */
function timeOr(crossing: Crossing, end_ms: number): number | null {
  switch (crossing.kind) {
    case 'at':
      return crossing.time_ms;
    case 'always down':
      return end_ms;
    case 'always up':
      return null;
  }
}

/** What is left of a span when others, in order and apart, are cut out of it. */
function without(whole: Span, cuts: readonly Span[]): Span[] {
  const left: Span[] = [];
  let from_ms = whole.from_ms;
  for (const cut of cuts) {
    if (cut.from_ms >= whole.to_ms) break;
    if (cut.from_ms > from_ms) left.push({ from_ms, to_ms: cut.from_ms });
    from_ms = Math.max(from_ms, cut.to_ms);
  }
  if (from_ms < whole.to_ms) left.push({ from_ms, to_ms: whole.to_ms });
  return left;
}
