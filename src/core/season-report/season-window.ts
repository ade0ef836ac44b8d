import type { Night } from '../domain/night.ts';
import type { Nest } from '../domain/nest.ts';
import type { NestOutcome } from './nest-outcome.ts';

/** The part of a season that is looked at; null = all of it. Both dates are included. */
export interface SeasonWindow {
  readonly zone: string | null;
  readonly from: Night | null;
  readonly to: Night | null;
  /** What the dates are of: when a nest was laid, or when something came of it. */
  readonly by: 'happened' | 'laid';
}

/** All of a season. */
export const wholeSeason: SeasonWindow = { zone: null, from: null, to: null, by: 'happened' };

/** What lies in a window: a zone and the nights it is known by (null: not known). */
export interface Placed {
  readonly zone: string | null;
  readonly laid: Night | null;
  readonly happened: Night | null;
}

/** Whether something lies in the window; what has no date lies in none that has dates. */
export function isWithin({ zone, from, to, by }: SeasonWindow, placed: Placed): boolean {
  if (zone !== null && placed.zone !== zone) return false;
  if (from === null && to === null) return true;
  const night = by === 'laid' ? placed.laid : placed.happened;
  return night !== null && (from === null || night >= from) && (to === null || night <= to);
}

/** The outcomes in a window. A nest that is still waiting has a lay night only. */
export function outcomesWithin(
  outcomes: readonly NestOutcome[],
  window: SeasonWindow,
): readonly NestOutcome[] {
  return outcomes.filter(({ nest: { nest }, outcome }) =>
    isWithin(window, placedOf(nest, outcome.kind === 'waiting' ? null : outcome.night)),
  );
}

/** Where and when something came of a nest. A range of lay nights is taken at its first. */
export function placedOf({ zone, layNight }: Nest, happened: Night | null): Placed {
  return { zone, laid: layNight, happened };
}

/** The zones named by nests, in order. */
export function zonesOf(nests: Iterable<{ readonly nest: Nest }>): readonly string[] {
  return [...new Set([...nests].flatMap(({ nest }) => nest.zone ?? []))].sort();
}
