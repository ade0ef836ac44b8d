import { asNight, nightBounds, type Night } from '../domain/night.ts';

/** Sunset and sunrise of one night, epoch milliseconds. */
export interface Dusk {
  readonly sunset_ms: number;
  readonly sunrise_ms: number;
}

const HOUR_MS = 3_600_000;

/**
 * Share of boils by hours after sunset, then the rest of the night, then by daylight (guess
 * between measured peaks; beaches differ). Daylight boils are set in the three hours before sunset.
 */
export const byHour = [0.1, 0.18, 0.17, 0.14, 0.11, 0.09, 0.06, 0.05];
const restOfNight = 0.05;
export const daylight = 0.05;
const daylightHours = 3;

/** Share of boils that have started by a moment of the night, from 0 at noon to 1 at the next noon. */
export type HourCurve = (at_ms: number) => number;

/**
 * The distribution of the hour of emergence in one night. After a cool overcast or rainy late
 * afternoon (`wet`) the daylight and first-hour shares count double (common practice, guess).
 */
export function hourOfEmergence({ sunset_ms, sunrise_ms }: Dusk, wet: boolean): HourCurve {
  const edges_ms = [sunset_ms - daylightHours * HOUR_MS];
  const shares = [wet ? 2 * daylight : daylight];
  byHour.forEach((share, hour) => {
    edges_ms.push(sunset_ms + hour * HOUR_MS);
    shares.push(wet && hour === 0 ? 2 * share : share);
  });
  const last_ms = sunset_ms + byHour.length * HOUR_MS;
  edges_ms.push(last_ms);
  shares.push(restOfNight);
  edges_ms.push(Math.max(sunrise_ms, last_ms + HOUR_MS));
  const total = shares.reduce((sum, share) => sum + share, 0);
  return (at_ms) => {
    let sum = 0;
    for (let index = 0; index < shares.length; index++) {
      const from_ms = edges_ms[index]!;
      const to_ms = edges_ms[index + 1]!;
      const part = Math.min(1, Math.max(0, (at_ms - from_ms) / (to_ms - from_ms)));
      sum += part * shares[index]!;
    }
    return Math.min(1, sum / total);
  };
}

/**
 * Sunset at 20:00 and sunrise at 06:00 on the programme's clocks: what is used until a programme
 * or its nests have a position (guess).
 */
export function untoldDusk(night: Night, zone: string): Dusk {
  const noon_ms = nightBounds(asNight(night), zone).from_ms;
  return { sunset_ms: noon_ms + 8 * HOUR_MS, sunrise_ms: noon_ms + 18 * HOUR_MS };
}
