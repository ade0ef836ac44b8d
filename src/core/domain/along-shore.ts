import type { Nest, NestId } from './nest.ts';

/** Mean meridian degree of a sphere of 6,371 km. */
export const METRES_PER_DEGREE = 111_195;

/**
 * Metres along the shore of the nests of one zone: `shore_m`, or, when that is missing, their
 * position projected on the line that fits all positions best (first principal axis), lined up with
 * the nests that have both. A nest with neither is left out.
 */
export function alongShore_m(nests: readonly Nest[]): ReadonlyMap<NestId, number> {
  const projected = projectionOf(nests);
  const shift_m = medianOf(
    nests.flatMap(({ id, shore_m }) => {
      const own_m = projected.get(id);
      return shore_m === null || own_m === undefined ? [] : [shore_m - own_m];
    }),
  );
  const lowest_m = Math.min(...projected.values());
  const along = new Map<NestId, number>();
  for (const { id, shore_m } of nests) {
    const own_m = projected.get(id);
    if (shore_m !== null) along.set(id, shore_m);
    else if (own_m !== undefined) along.set(id, own_m + (shift_m ?? -lowest_m));
  }
  return along;
}

/** Points the way `shore_m` grows, or else to the north, or else to the east. */
function projectionOf(nests: readonly Nest[]): ReadonlyMap<NestId, number> {
  const placed = nests.filter((nest) => nest.latitude_deg !== null && nest.longitude_deg !== null);
  const first = placed[0];
  if (first === undefined) return new Map();
  const [lat_deg, lon_deg] = [first.latitude_deg ?? 0, first.longitude_deg ?? 0];
  const shrink = Math.cos((lat_deg * Math.PI) / 180);
  const points = placed.map((nest) => ({
    nest,
    x_m: ((nest.longitude_deg ?? 0) - lon_deg) * METRES_PER_DEGREE * shrink,
    y_m: ((nest.latitude_deg ?? 0) - lat_deg) * METRES_PER_DEGREE,
  }));
  const x0_m = points.reduce((sum, point) => sum + point.x_m, 0) / points.length;
  const y0_m = points.reduce((sum, point) => sum + point.y_m, 0) / points.length;
  let [xx, xy, yy] = [0, 0, 0];
  for (const { x_m, y_m } of points) {
    xx += (x_m - x0_m) ** 2;
    xy += (x_m - x0_m) * (y_m - y0_m);
    yy += (y_m - y0_m) ** 2;
  }
  const axis_rad = 0.5 * Math.atan2(2 * xy, xx - yy);
  const [east, north] = [Math.cos(axis_rad), Math.sin(axis_rad)];
  const along = points.map(({ nest, x_m, y_m }) => ({
    nest,
    along_m: (x_m - x0_m) * east + (y_m - y0_m) * north,
  }));
  const told = along.filter(({ nest }) => nest.shore_m !== null);
  const shore0_m = told.reduce((sum, { nest }) => sum + (nest.shore_m ?? 0), 0) / told.length;
  const agreement = told.reduce(
    (sum, { nest, along_m }) => sum + along_m * ((nest.shore_m ?? 0) - shore0_m),
    0,
  );
  const sign = Math.sign(told.length > 1 ? agreement : Math.abs(north) > 0.1 ? north : east) || 1;
  return new Map(along.map(({ nest, along_m }) => [nest.id, sign * along_m]));
}

function medianOf(values: readonly number[]): number | null {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? null;
}
