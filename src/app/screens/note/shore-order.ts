import type { Nest, NestId } from '../../../core/domain/nest.ts';
import type { SeasonRecord } from '../../../core/log/season-record.ts';
import { alongShore_m } from '../../../core/domain/along-shore.ts';
import type { Position } from '../../state/position-finder.ts';
import { compareNames } from '../../../core/domain/locale.ts';

const METRES_PER_DEGREE = 111_195; // mean meridian degree of a sphere of 6,371 km

/**
 * Nests in the order in which one walks past them: zone by zone (as the programme lists them, then
 * by name), within a zone by distance along the shore. A nest of which neither distance nor position
 * is known comes last in its zone, by name.
 */
export function shoreOrder(nests: Iterable<Nest>, zones: readonly string[]): readonly Nest[] {
  const byZone = new Map<string, Nest[]>();
  for (const nest of nests) {
    const zone = nest.zone ?? '';
    const held = byZone.get(zone);
    if (held === undefined) byZone.set(zone, [nest]);
    else held.push(nest);
  }
  const rank = (zone: string): number => {
    if (zone === '') return zones.length + 1;
    const listed = zones.indexOf(zone);
    return listed === -1 ? zones.length : listed;
  };
  return [...byZone.keys()]
    .sort((a, b) => rank(a) - rank(b) || byName(a, b))
    .flatMap((zone) => alongZone(byZone.get(zone) ?? []));
}

/** Keeps the order of nests until something changes that it goes by: sorting a thousand takes a while. */
export class ShoreMemory {
  #key: readonly unknown[] = [];
  #order: readonly NestId[] = [];

  /** The ids of nests as `shoreOrder` has them. */
  order(nests: readonly Nest[], zones: readonly string[]): readonly NestId[] {
    const key = [...zones, ...nests.flatMap(placeOf)];
    if (key.length !== this.#key.length || key.some((part, index) => part !== this.#key[index])) {
      this.#key = key;
      this.#order = shoreOrder(nests, zones).map(({ id }) => id);
    }
    return this.#order;
  }
}

function placeOf({ id, zone, shore_m, latitude_deg, longitude_deg }: Nest): readonly unknown[] {
  return [id, zone, shore_m, latitude_deg, longitude_deg];
}

/** The nests of a record. */
export function nestsOf(record: SeasonRecord): readonly Nest[] {
  return [...record.nests.values()].map(({ nest }) => nest);
}

/** Names in the order a person expects: W-9 before W-10. */
export function byName(a: string, b: string): number {
  return compareNames(a, b);
}

function alongZone(nests: readonly Nest[]): Nest[] {
  const along = alongShore_m(nests);
  const place_m = ({ id }: Nest): number => along.get(id) ?? Infinity;
  return [...nests].sort(
    (a, b) =>
      Number(place_m(a) > place_m(b)) - Number(place_m(a) < place_m(b)) || byName(a.id, b.id),
  );
}

function positionOf(nest: Nest): Position | null {
  if (nest.latitude_deg === null || nest.longitude_deg === null) return null;
  return { latitude_deg: nest.latitude_deg, longitude_deg: nest.longitude_deg };
}

/** Metres east and north of `from`, on a plane; good to a few metres over a beach. */
function eastNorth_m(from: Position, to: Position): { east_m: number; north_m: number } {
  const shrink = Math.cos((from.latitude_deg * Math.PI) / 180);
  return {
    east_m: (to.longitude_deg - from.longitude_deg) * METRES_PER_DEGREE * shrink,
    north_m: (to.latitude_deg - from.latitude_deg) * METRES_PER_DEGREE,
  };
}

/** The nest nearest to a position, metres away; null when no nest has a position. */
export function nearestNest(
  nests: Iterable<Nest>,
  here: Position,
): { readonly nest: Nest; readonly distance_m: number } | null {
  let nearest: { nest: Nest; distance_m: number } | null = null;
  for (const nest of nests) {
    const at = positionOf(nest);
    if (at === null) continue;
    const { east_m, north_m } = eastNorth_m(here, at);
    const distance_m = Math.hypot(east_m, north_m);
    if (nearest === null || distance_m < nearest.distance_m) nearest = { nest, distance_m };
  }
  return nearest;
}

/**
 * The stretch of `count` items that has `focus` in its middle, moved as little as needed to stay
 * within the list. Fewer only when there are fewer.
 */
export function stretchAround<Item>(
  items: readonly Item[],
  focus: number,
  count: number,
): readonly Item[] {
  const from = Math.max(0, Math.min(focus - Math.floor((count - 1) / 2), items.length - count));
  return items.slice(from, from + count);
}
