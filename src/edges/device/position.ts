import { type Leave, leaveFor } from './leave.ts';

/** A position, degrees WGS 84. */
interface Position {
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** A fix older than this is taken anew; one that takes longer is given up. */
const freshFor_ms = 30_000;
const patience_ms = 8_000;

/** What is needed of the browser; tests pass their own. */
export interface Locator {
  readonly geolocation: Pick<Geolocation, 'getCurrentPosition'> | null;
  readonly permissions: Pick<Permissions, 'query'> | null;
}

/**
 * Whether the page may read the position: `given` only when the browser says that it would not ask.
 * Never fails, and asks nothing.
 */
export async function positionLeave(locator: Locator = deviceLocator()): Promise<Leave> {
  return locator.geolocation === null ? 'refused' : leaveFor('geolocation', locator.permissions);
}

/** Where the device is, only if leave was given before; else null, and no question appears. */
export async function knownPosition(locator: Locator = deviceLocator()): Promise<Position | null> {
  return (await positionLeave(locator)) === 'given' ? askPosition(locator) : null;
}

/** Where the device is; the browser may ask the person first. Null when it cannot or may not tell. */
export function askPosition({ geolocation }: Locator = deviceLocator()): Promise<Position | null> {
  return new Promise((resolve) => {
    if (geolocation === null) {
      resolve(null);
      return;
    }
    geolocation.getCurrentPosition(
      ({ coords }) => {
        resolve({ latitude_deg: coords.latitude, longitude_deg: coords.longitude });
      },
      () => {
        resolve(null);
      },
      { enableHighAccuracy: true, maximumAge: freshFor_ms, timeout: patience_ms },
    );
  });
}

function deviceLocator(): Locator {
  const device = typeof navigator === 'undefined' ? null : navigator;
  return {
    geolocation: device !== null && 'geolocation' in device ? device.geolocation : null,
    permissions: device !== null && 'permissions' in device ? device.permissions : null,
  };
}
