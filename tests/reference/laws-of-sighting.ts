import type { Night } from '../../src/core/domain/night.ts';

/**
 * The chances behind watches and dawn looks, restated here rather than read from the code under test,
 * so that a slip there shows. From the description of the model, but for what it leaves open (some for
 * few, what a boil and old tracks look like, how stragglers fade): those pin what the code has. All
 * are guesses. Plain values: they go to other programs as JSON.
 */
export const sightingLaws = {
  /** One to three stragglers on a night far from the boil, and how many times likelier near it. */
  straggling: 0.01,
  beforeBoil: [8, 4, 2],
  afterBoil: 8,
  withoutBoil: 0.3,
  /** Stragglers in number (four and more, short of a boil) against one to three. */
  someForFew: 0.1,
  /** What a boil looks like when it is met or its tracks are found: few, some, many. */
  ofBoil: [0.05, 0.1, 0.85],
  /** No tracks on the first dawns after the boil's own, and later; else few, some, many. */
  noTracksAfter: [0.6, 0.75, 0.9],
  noTracksLater: 0.97,
  ofOldTracks: [0.6, 0.25, 0.15],
  /** Boils by daylight (three hours before sunset), then by hours after sunset, then the rest. */
  byHour: [0.05, 0.1, 0.18, 0.17, 0.14, 0.11, 0.09, 0.06, 0.05, 0.05],
} as const;

/** Chances of counting none, few (1-3), some (4-9) and many (10 and more). They sum to 1. */
export type CountChances = readonly [none: number, few: number, some: number, many: number];

function stragglers(factor: number): CountChances {
  const few = sightingLaws.straggling * factor;
  const some = few * sightingLaws.someForFew;
  return [1 - few - some, few, some, 0];
}

const beforeBoil = (nightsLeft: number): number => sightingLaws.beforeBoil[nightsLeft] ?? 1;

/** Nights from one night to the boil; null = it never comes. */
export function nightsTo(boil: Night | null, night: Night): number | null {
  return boil === null ? null : boil - night;
}

/** What a watch counts, `after` nights before the boil, that has `watched` of the hours of boils. */
export function watchCounts(after: number | null, watched: number): CountChances {
  if (after === null) return stragglers(sightingLaws.withoutBoil);
  if (after > 0) return stragglers(beforeBoil(after));
  if (after < 0) return stragglers(sightingLaws.afterBoil * 0.5 ** (-after - 1));
  const [none, few, some] = stragglers(beforeBoil(0));
  const boil = sightingLaws.ofBoil;
  return [
    (1 - watched) * none,
    (1 - watched) * few + watched * boil[0],
    (1 - watched) * some + watched * boil[1],
    watched * boil[2],
  ];
}

/** What a look for tracks at dawn counts; `missed` = chance that the boil's own are not found. */
export function dawnCounts(after: number | null, missed: number): CountChances {
  if (after === null) return stragglers(sightingLaws.withoutBoil);
  if (after > 0) return stragglers(beforeBoil(after - 1));
  const { noTracksAfter, noTracksLater, ofBoil, ofOldTracks } = sightingLaws;
  const none = after === 0 ? missed : (noTracksAfter[-after - 1] ?? noTracksLater);
  const of = after === 0 ? ofBoil : ofOldTracks;
  return [none, (1 - none) * of[0], (1 - none) * of[1], (1 - none) * of[2]];
}

/**
 * Chance that a boil's tracks are not found on its own dawn, by the weather said of the look (null =
 * not said) and by how many hatchlings are expected.
 */
export function missedAtDawn(wind: string | null, rain: string | null, hatchlings: number): number {
  const weather =
    wind === 'strong' || rain === 'heavy'
      ? 0.4
      : wind === 'breeze' || rain === 'light'
        ? 0.15
        : wind === null && rain === null
          ? 0.1
          : 0.05;
  return 1 - (1 - weather) * (1 - Math.exp(-hatchlings / 6));
}

/**
 * Share of boils that begin between two times, in hours after sunset (at 20:00), for watches that
 * end within eight hours of it. A wet late afternoon doubles daylight and the first hour.
 */
export function shareOfBoils(from_h: number, to_h: number, wet: boolean): number {
  const shares = sightingLaws.byHour.map((share, slot) => (wet && slot < 2 ? 2 * share : share));
  const total = shares.reduce((sum, share) => sum + share, 0);
  let met = 0;
  for (let hour = 0; hour < 8; hour++) {
    const part = Math.min(to_h, hour + 1) - Math.max(from_h, hour);
    if (part > 0) met += part * shares[hour + 1]!;
  }
  return met / total;
}
