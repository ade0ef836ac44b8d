import { randomStream } from '../numerics/random.ts';
import type { Fate } from './fate.ts';
import type { Clutch } from './laying.ts';
import type { WeatherDay } from './weather.ts';

/** The sand above one nest, as it sinks, fills and is trodden from half night to half night. */
export interface SandAbove {
  /** Depth of the hollow, centimetres. */
  hollow_cm(): number;
  /** Brings it from one half night to the next: the moment, and the weather since the last. */
  pass(moment: number, wind_ms: number, rain_mm: number): void;
}

/**
 * The hollow above a nest. What happens below is a column of sand that settles: the clutch loses
 * volume as the eggs break (Kraemer & Richardson 1979, from memory; Demmer 1981), the hatchlings carry sand
 * down past themselves as they climb, and near the top they wait in air pits that may fall in
 * (Poornima 2021). Some nests under firm sand stay flat to the end. Wind and rain fill a hollow;
 * crabs, feet and rain make false ones. All amounts are invented.
 */
export function sandAbove(seed: number, clutch: Clutch, fate: Fate): SandAbove {
  const random = randomStream(seed, 'surface', clutch.index);
  const firm = random.chance(0.3);
  const settles_cm = random.gamma(4.4, 1.9) * (47 / clutch.depth_cm) ** 0.7 * (firm ? 0.08 : 1);
  const hastens = random.between(1.8, 4.5);
  const pitFalls = !firm && random.chance(0.3);
  let settled = 0;
  let true_cm = 0;
  let false_cm = 0;
  let fallen = false;

  const sinkTowards = (
    moment: number,
    emergence: Extract<Fate, { outcome: 'boil' }>['emergence'],
  ) => {
    const climbed = (moment - emergence.pip) / (emergence.ready - emergence.pip);
    const share = settledShare(Math.max(0, Math.min(1, climbed)), hastens);
    true_cm += settles_cm * Math.max(0, share - settled);
    settled = Math.max(settled, share);
    if (pitFalls && !fallen && emergence.boil.moment - moment < 0.7) {
      true_cm += random.gamma(5, 5);
      fallen = true;
    }
    if (moment > emergence.boil.moment && settled < 2) {
      settled = 2; // the crater they leave
      true_cm += random.gamma(4.5, 3) * Math.min(1, emergence.boil.hatchlings / 40);
    }
  };

  return {
    hollow_cm: () => Math.max(true_cm, false_cm),
    pass(moment, wind_ms, rain_mm) {
      const keeps = (1 - filledByWind(wind_ms)) * Math.exp(-rain_mm / 45);
      true_cm *= keeps;
      false_cm *= 0.72 * keeps;
      if (random.chance(clutch.zone.falseDips / 2 + (rain_mm > 15 ? 0.01 : 0)))
        false_cm = Math.max(false_cm, 0.8 + random.gamma(2, 1.5));
      if (fate.outcome === 'boil') sinkTowards(moment, fate.emergence);
    },
  };
}

/** Share of the settling done when they have climbed this share of the way. */
function settledShare(climbed: number, hastens: number): number {
  const eggs = 0.22 * Math.min(1, climbed / 0.3);
  return eggs + 0.78 * climbed ** hastens;
}

/** Share of a hollow that half a night of wind fills. */
function filledByWind(wind_ms: number): number {
  return Math.min(0.6, 0.012 + 0.0016 * Math.max(0, wind_ms - 2) ** 2);
}

/** Rain of half a date: late rain falls before and in the night, other rain after dawn. */
export function rainOfHalf(day: WeatherDay, half: 'evening' | 'night'): number {
  if (half === 'evening') return day.lateRain ? day.rain_mm * 0.6 : day.rain_mm;
  return day.lateRain ? day.rain_mm * 0.4 : 0;
}
