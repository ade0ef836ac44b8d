/** West, south, east, north in degrees; west is the larger number when the box spans the date line. */
export type Box = readonly [number, number, number, number];

/**
 * The box around positions (longitude, latitude), as RFC 7946 section 5 wants it: the narrow way round the
 * Earth, also over the 180th meridian. Null without positions.
 */
export function boxOf(positions: readonly (readonly [number, number])[]): Box | null {
  if (positions.length === 0) return null;
  const latitudes = positions.map(([, latitude]) => latitude);
  const longitudes = positions.map(([longitude]) => longitude).sort((a, b) => a - b);
  // What lies beside the widest gap between neighbours is the narrowest box.
  const first = longitudes[0] ?? 0;
  let [widest, west, east] = [-1, first, first];
  longitudes.forEach((longitude, index) => {
    const next = longitudes[index + 1];
    const gap = (next ?? first + 360) - longitude;
    if (gap > widest) [widest, west, east] = [gap, next ?? first, longitude];
  });
  return [west, Math.min(...latitudes), east, Math.max(...latitudes)];
}
