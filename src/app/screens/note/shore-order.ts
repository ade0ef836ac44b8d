import type { Nest, NestId } from '../../../core/domain/nest.ts';

const METRES_PER_DEGREE = 111_195; // mean meridian degree of a sphere of 6,371 km

/** A position, degrees WGS 84. */
export interface Position {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** A nest and how far along its zone's shore it lies; null when nothing tells. */
interface Place {
  readonly nest: Nest;
  readonly along_m: number | null;
}

/**
 * Nests in the order in which one walks past them: zone by zone (as the programme lists them, then
 * by name), within a zone by `shore_m`. A nest without it is placed by its position between those
 * that have one; a nest with neither comes last in its zone, by name.
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

/** Names in the order a person expects: W-9 before W-10. */
export function byName(a: string, b: string): number {
  return a.localeCompare(b, 'en', { numeric: true });
}

function alongZone(nests: readonly Nest[]): Nest[] {
  const projected = projectionOf(nests);
  const known = nests.filter((nest) => nest.shore_m !== null && projected.has(nest.id));
  const place = (nest: Nest): Place => {
    if (nest.shore_m !== null) return { nest, along_m: nest.shore_m };
    const own = projected.get(nest.id);
    if (own === undefined) return { nest, along_m: null };
    let nearest: { gap: number; along_m: number } = { gap: Infinity, along_m: own };
    for (const other of known) {
      const step = own - (projected.get(other.id) ?? 0);
      if (Math.abs(step) < nearest.gap) {
        nearest = { gap: Math.abs(step), along_m: (other.shore_m ?? 0) + step };
      }
    }
    return { nest, along_m: nearest.along_m };
  };
  return nests
    .map(place)
    .sort(
      (a, b) => (a.along_m ?? Infinity) - (b.along_m ?? Infinity) || byName(a.nest.id, b.nest.id),
    )
    .map(({ nest }) => nest);
}

/**
 * Metres of each positioned nest along the line that fits the positions best (first principal
 * axis), pointing the way `shore_m` grows, or else to the north, or else to the east.
 */
function projectionOf(nests: readonly Nest[]): ReadonlyMap<NestId, number> {
  const placed = nests.flatMap((nest) => {
    const at = positionOf(nest);
    return at === null ? [] : [{ nest, at }];
  });
  const first = placed[0];
  if (first === undefined) return new Map();
  const points = placed.map(({ nest, at }) => ({ nest, ...eastNorth_m(first.at, at) }));
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;
  const east = mean(points.map((point) => point.east_m));
  const north = mean(points.map((point) => point.north_m));
  let [ee, en, nn] = [0, 0, 0];
  for (const { east_m, north_m } of points) {
    ee += (east_m - east) ** 2;
    en += (east_m - east) * (north_m - north);
    nn += (north_m - north) ** 2;
  }
  const axis_rad = 0.5 * Math.atan2(2 * en, ee - nn);
  const [x, y] = [Math.cos(axis_rad), Math.sin(axis_rad)];
  const along = points.map(({ nest, east_m, north_m }) => ({
    nest,
    along_m: (east_m - east) * x + (north_m - north) * y,
  }));
  const agreement = along.reduce(
    (sum, { nest, along_m }) => sum + along_m * (nest.shore_m ?? 0),
    0,
  );
  const told = along.filter(({ nest }) => nest.shore_m !== null).length > 1;
  const northward = Math.abs(y) > 0.1 ? y : x;
  const sign = Math.sign(told ? agreement : northward) || 1;
  return new Map(along.map(({ nest, along_m }) => [nest.id, sign * along_m]));
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
