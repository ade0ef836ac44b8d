import type { Random } from '../numerics/random.ts';
import { HOUR, MINUTE } from './beach-clock.ts';
import type { Clutch } from './laying.ts';
import type { Weather } from './weather.ts';

/** Hatchlings that come up together; `moment` in days from noon to noon. */
export interface Group {
  readonly moment: number;
  readonly hatchlings: number;
}

/** How a nest came up: the way below, the boil, and those before and after it. */
export interface Emergence {
  /** When the first of them broke their shells and when they lay ready below the surface. */
  readonly pip: number;
  readonly ready: number;
  readonly boil: Group;
  readonly before: readonly Group[];
  readonly after: readonly Group[];
  /** Alive and still in the nest when the others have gone. */
  readonly leftBehind: number;
}

/** Sunset and sunrise of a night as moments; the place's clock gives them. */
export interface Daylight {
  sunset(night: number): number;
  sunrise(night: number): number;
}

/**
 * Hatching to emergence takes 4.1 d on the mean (Godfrey & Mrosovsky 1997) and 3-7 d (Dor et al.
 * 2024); more hatchlings dig faster (Rusli, Booth & Joseph 2016). Spread and powers are invented.
 */
function climb_days(random: Random, clutch: Clutch, diggers: number): number {
  const together = (90 / Math.max(15, diggers)) ** 0.12;
  const deep = (clutch.depth_cm / 47) ** 0.4;
  return 1.4 + random.gamma(2.7 * together * deep, 5);
}

/**
 * The boil and what comes with it. Most nests empty in one night and others over several (Glen et
 * al. 2005; Adam et al. 2007; USGS 2021); shares are invented between those reports.
 */
export function inventEmergence(
  random: Random,
  clutch: Clutch,
  hatch: number,
  diggers: number,
  weather: Weather,
  daylight: Daylight,
): Emergence {
  const ready = hatch + climb_days(random, clutch, diggers);
  const moment = boilMoment(random, clutch, ready, weather, daylight);
  const slow = random.chance(0.14);
  const share = slow ? random.between(0.4, 0.6) : random.beta(0.92, 14);
  const hatchlings = Math.max(Math.min(4, diggers), Math.round(diggers * share));
  let rest = diggers - hatchlings;

  const before: Group[] = [];
  if (rest > 0 && random.chance(0.09)) {
    const few = Math.min(rest, 1 + random.below(3));
    before.push({ moment: moment - 1 + random.normal(0, 0.6) * HOUR, hatchlings: few });
    rest -= few;
  }
  const leftBehind = random.binomial(rest, 0.2);
  rest -= leftBehind;
  const after: Group[] = [];
  for (let later = 1; rest > 0 && later <= 7; later++) {
    const night = Math.floor(moment) + later;
    const most = Math.max(1, hatchlings - 1);
    const few = Math.min(most, later === 7 ? rest : random.binomial(rest, 0.55));
    if (few > 0)
      after.push({
        moment: usualMoment(random, clutch, night, weather, daylight),
        hatchlings: few,
      });
    rest -= few;
  }
  return {
    pip: hatch - 0.8,
    ready,
    boil: { moment, hatchlings },
    before,
    after,
    leftBehind: leftBehind + rest,
  };
}

/** The hour at which this beach's sand has cooled enough on a night: later after a hot day. */
function usualMoment(
  random: Random,
  clutch: Clutch,
  night: number,
  weather: Weather,
  daylight: Daylight,
): number {
  const hot_min = 9 * Math.max(-4, Math.min(5, weather.on(night).anomaly_c));
  const wait_min = 20 + random.gamma(60 * clutch.zone.emergence_h, 3.2) + hot_min;
  const latest = daylight.sunrise(night) - 30 * MINUTE;
  return Math.min(
    latest - random.between(0, 90) * MINUTE,
    daylight.sunset(night) + Math.max(5, wait_min) * MINUTE,
  );
}

/**
 * When hatchlings that lie ready come out: mostly in the first night whose sand cools after that;
 * sometimes by day, most of all when late rain or cloud has cooled the surface (facts D: 79.5-98.6
 * % of groups at night).
 */
function boilMoment(
  random: Random,
  clutch: Clutch,
  ready: number,
  weather: Weather,
  daylight: Daylight,
): number {
  const night = Math.floor(ready);
  const day = weather.on(night);
  const sunset = daylight.sunset(night);
  const cool = day.sun < 0.6 || (day.lateRain && day.rain_mm > 4);
  if (ready < sunset && random.chance(cool ? 0.22 : 0.012))
    return Math.max(ready, sunset - random.between(0.2, 3) * HOUR);
  const tonight = usualMoment(random, clutch, night, weather, daylight);
  if (ready <= tonight) return tonight;
  const dawn = daylight.sunrise(night);
  if (ready < dawn - 40 * MINUTE && random.chance(0.6))
    return ready + random.between(2, 25) * MINUTE;
  if (ready < dawn + 2 * HOUR && random.chance(0.1))
    return Math.max(ready, dawn + random.between(0, 1) * HOUR);
  return usualMoment(random, clutch, night + 1, weather, daylight);
}
