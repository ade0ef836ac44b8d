import { type Random, randomStream } from '../numerics/random.ts';
import type { InventedZone } from './coast.ts';
import type { Volunteer } from './volunteers.ts';

/** Two people who walk and sit together. */
export interface Pair {
  readonly first: Volunteer;
  readonly second: Volunteer;
}

/** Who has offered which nights from `first` to `last`, night by night. */
export function inventOffers(
  seed: number,
  volunteers: readonly Volunteer[],
  may: number,
  first: number,
  last: number,
): Map<number, Volunteer[]> {
  const random = randomStream(seed, 'offers');
  const offers = new Map<number, Volunteer[]>();
  for (let night = first; night <= last; night++) {
    const weekday = night % 7;
    const offering = volunteers.filter(({ weekdays, away: [from, to] }) => {
      if (night - may >= from && night - may <= to) return false;
      return random.chance(weekdays.includes(weekday) ? 0.92 : 0.12);
    });
    offers.set(night, offering);
  }
  return offers;
}

/** Keeps count of shifts, so that nobody walks more nights a week than they offered. */
export class Duty {
  readonly #shifts = new Map<string, number[]>();

  /** Those who offered tonight, came, and have a shift left in these seven nights; best rested first. */
  callOut(random: Random, night: number, offering: readonly Volunteer[]): Volunteer[] {
    const came: { by: Volunteer; tired: number }[] = [];
    for (const by of offering) {
      const recent = (this.#shifts.get(by.name) ?? []).filter((shift) => shift > night - 7);
      if (recent.length >= by.maxShiftsWeek || !random.chance(0.88)) continue;
      came.push({ by, tired: recent.length + random.uniform() });
    }
    came.sort((one, other) => one.tired - other.tired);
    return came.map(({ by }) => by);
  }

  /** Writes a shift down for each of these people. */
  worked(night: number, pairs: readonly Pair[]): void {
    for (const { name } of pairs.flatMap(({ first, second }) => [first, second])) {
      const recent = (this.#shifts.get(name) ?? []).filter((shift) => shift > night - 7);
      this.#shifts.set(name, [...recent, night]);
    }
  }
}

/** People in pairs, in the order given; nobody goes alone. */
export function pairsOf(people: readonly Volunteer[], mostPairs: number): Pair[] {
  const pairs: Pair[] = [];
  let waiting: Volunteer | null = null;
  for (const person of people) {
    if (pairs.length === mostPairs) break;
    if (waiting === null) waiting = person;
    else {
      pairs.push({ first: waiting, second: person });
      waiting = null;
    }
  }
  return pairs;
}

/** Who patrols a zone at a dawn; null when it goes unwalked. */
export type PatrolRota = (
  zone: InventedZone,
  night: number,
  wind_ms: number,
  surge_m: number,
) => Volunteer | null;

/**
 * The dawn rota: practised people by weekday; most mornings are walked, storms keep people off,
 * and now and then a zone is short of people for some days.
 */
export function inventRota(
  seed: number,
  zones: readonly InventedZone[],
  volunteers: readonly Volunteer[],
  first: number,
  last: number,
): PatrolRota {
  const random = randomStream(seed, 'rota');
  const practised = volunteers.filter(({ experience }) => experience !== 'novice');
  const walkers = practised.length > 1 ? practised : volunteers;
  const short = new Set<string>();
  const regulars = new Map<string, Volunteer>();
  for (const { zone } of zones) {
    for (let gap = random.poisson(2.5); gap > 0; gap--) {
      const from = first + random.below(Math.max(1, last - first));
      for (let day = from; day < from + 2 + random.below(4); day++) short.add(`${zone} ${day}`);
    }
    for (let weekday = 0; weekday < 7; weekday++)
      regulars.set(`${zone} ${weekday}`, random.choice(walkers));
  }
  return ({ zone }, night, wind_ms, surge_m) => {
    const walks = surge_m > 0 ? 0.35 : wind_ms > 12 ? 0.7 : 0.975;
    const comes = random.chance(short.has(`${zone} ${night}`) ? 0.3 * walks : walks);
    const standsIn = random.chance(0.15) ? random.choice(walkers) : null;
    return comes ? (standsIn ?? regulars.get(`${zone} ${night % 7}`) ?? null) : null;
  };
}
