import { randomStream } from '../numerics/random.ts';
import type { Weather } from './weather.ts';

/** How far up the beach the sea came each night, metres above an ordinary high tide. */
export interface Sea {
  reach_m(night: number): number;
  /** Whether waves cut the beach away that night rather than only running over it. */
  erodes(night: number): boolean;
}

/** Days from one spring tide to the next: half a synodic month of 29.53 days. */
const SPRING_DAYS = 14.765;

/** A sea of spring tides, windy days and storm surges. Invented, no real tide. */
export function inventSea(seed: number, weather: Weather): Sea {
  const random = randomStream(seed, 'sea');
  const start = random.between(0, SPRING_DAYS);
  const reaches: number[] = [];
  for (let night = weather.first; night <= weather.last; night++) {
    const spring = Math.cos((2 * Math.PI * (night - start)) / SPRING_DAYS);
    const { evening_ms, surge_m } = weather.on(night);
    reaches.push(
      0.16 * spring + 0.02 * Math.max(0, evening_ms - 4) + random.normal(-0.02, 0.06) + surge_m,
    );
  }
  return {
    reach_m: (night) => reaches[night - weather.first] ?? 0,
    erodes: (night) => weather.on(night).surge_m > 0.7,
  };
}

/**
 * Share of eggs that drown when the sea stands `over_m` above the nest at its highest.
 * After Pike, Roznik & Bell 2015 R Soc Open Sci: under 10 % for 1 or 3 h, about 30 % for 6 h; the
 * hours from the height are invented.
 */
export function drownedShare(over_m: number): number {
  const hours = Math.min(12, 2 + 9 * over_m);
  return Math.min(0.97, 0.012 * hours ** 1.8);
}
