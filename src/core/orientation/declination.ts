import { model } from 'geomagnetism';
import { turn_deg } from '../numerics/angle.ts';

/**
 * How far magnetic north lies east of true north at a place on a date, degrees (west negative), or that
 * no model covers the date. Source: World Magnetic Model of NOAA/NCEI and the British Geological
 * Survey, as the package `geomagnetism` 0.2.0 carries it (editions 2015 to 2025; the newest holds to
 * November 2029). It leaves out iron in the sand and the car park: those no model knows.
 */
export type Declination =
  | { readonly kind: 'known'; readonly east_deg: number; readonly model: string }
  | { readonly kind: 'no model'; readonly message: string };

/** Declination at a place, degrees north and east, sea level, at an instant. */
export function declination(
  place: { readonly latitude_deg: number; readonly longitude_deg: number },
  at_ms: number,
): Declination {
  try {
    const field = model(new Date(at_ms));
    const { decl } = field.point([place.latitude_deg, place.longitude_deg]);
    return { kind: 'known', east_deg: decl, model: field.name };
  } catch {
    const year = new Date(at_ms).getUTCFullYear();
    const message = `No model of the magnetic field covers ${year}. Take bearings against the line to the sea instead.`;
    return { kind: 'no model', message };
  }
}

/** True bearing of a magnetic one, 0 up to 360 degrees. */
export function trueBearing(magnetic_deg: number, east_deg: number): number {
  return turn_deg(magnetic_deg + east_deg);
}
