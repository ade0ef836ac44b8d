import type { Night } from '../domain/night.ts';
import type { Visit } from '../domain/visit.ts';
import type { Site } from './site.ts';

/**
 * What was counted in one watch or at one dawn. `one`..`boil tracks - 1` may be stragglers; from the
 * site's number on it was the boil.
 */
type Count = 'none' | 'few' | 'some' | 'many';

/** A look for hatchlings or their tracks, and how likely its outcome was under each answer. */
export interface Sighting {
  readonly kind: 'watch' | 'tracks';
  readonly visits: readonly Visit[];
  readonly night: Night;
  readonly count: Count;
  readonly counted: number;
  /** Likelihood when the boil was, or will be, `after` nights after this night (negative: before). */
  readonly likelihood: (after: number) => number;
  readonly likelihoodNever: number;
  /** So many nights from this one and farther, before or after, all nights are alike. */
  readonly evenBeyond: number;
}

/** Chance of one to three stragglers on a night far from the boil (guess). */
export const straggling = 0.01;
/** How many times likelier on the night of the boil and one and two nights before; after; never. */
const beforeBoil = [8, 4, 2];
const afterBoil = 8;
const withoutBoil = 0.3;
/** Stragglers in number (four and more, yet short of a boil) against one to three (guess). */
const someForFew = 0.1;
/** What a boil looks like in the tracks of its own dawn, when they are seen at all (guess). */
const tracksOfBoil: Record<Exclude<Count, 'none'>, number> = { few: 0.05, some: 0.1, many: 0.85 };
/** Chance of no tracks on the first three dawns after the boil's own, and on any later one. */
const noTracksAfter = [0.6, 0.75, 0.9];
const noTracksLater = 0.97;
/** Stragglers in a watch die away after the boil, by halves: no two nights are quite alike. */
const neverEven = 1000;
/** What is seen on those dawns when something is: stragglers, or the old tracks (guess). */
const tracksAfter: Record<Exclude<Count, 'none'>, number> = { few: 0.6, some: 0.25, many: 0.15 };

/** Reads a count by the site's number of tracks that make a boil. */
export function countClass(count: number, boilTracks: number): Count {
  if (count === 0) return 'none';
  if (count >= boilTracks) return 'many';
  return count <= Math.min(3, boilTracks - 1) ? 'few' : 'some';
}

/** How likely stragglers are, `nightsLeft` nights before the boil, against far from it. */
const stragglingFactor = (nightsLeft: number): number => beforeBoil[nightsLeft] ?? 1;

/** Chance of `count` hatchlings in a look on a night without the boil, by the factor for that night. */
function stragglers(count: Count, factor: number): number {
  const few = straggling * factor;
  switch (count) {
    case 'none':
      return 1 - few * (1 + someForFew);
    case 'few':
      return few;
    case 'some':
      return few * someForFew;
    case 'many':
      return 0;
  }
}

/**
 * One night's watches at a nest taken together, up to `until_ms`. `wet` = a rainy late afternoon.
 * Null when nothing was watched or nobody counted.
 */
export function watchSighting(
  visits: readonly Visit[],
  night: Night,
  site: Site,
  wet: boolean,
  until_ms: number,
): Sighting | null {
  const spans: [number, number][] = [];
  let counted = 0;
  const used: Visit[] = [];
  for (const visit of visits) {
    if (visit.watch === null || visit.emerged === null) continue;
    const { from_ms, to_ms } = visit.watch;
    if (to_ms > until_ms && visit.emerged > 0) continue; // not known yet
    if (from_ms > until_ms || to_ms < from_ms) continue;
    spans.push([from_ms, Math.min(to_ms, until_ms)]);
    counted += visit.emerged;
    used.push(visit);
  }
  if (used.length === 0) return null;
  const begun = site.hours(night, wet);
  let watched = 0;
  let end_ms = -Infinity;
  for (const [from_ms, to_ms] of spans.sort((a, b) => a[0] - b[0])) {
    const start_ms = Math.max(from_ms, end_ms);
    if (to_ms > start_ms) watched += begun(to_ms) - begun(start_ms);
    end_ms = Math.max(end_ms, to_ms);
  }
  const count = countClass(counted, site.boilTracks);
  return {
    kind: 'watch',
    visits: used,
    night,
    count,
    counted,
    likelihood(after) {
      if (count === 'many') return after === 0 ? 1 : 0;
      if (after > 0) return stragglers(count, stragglingFactor(after));
      if (after < 0) return stragglers(count, afterBoil * 0.5 ** (-after - 1));
      // The boil fell into the watch and was a poor one, or it did not and stragglers may have come.
      const outside = (1 - watched) * stragglers(count, stragglingFactor(0));
      return count === 'none' ? outside : outside + watched * tracksOfBoil[count];
    },
    likelihoodNever: count === 'many' ? 0 : stragglers(count, withoutBoil),
    evenBeyond: neverEven,
  };
}

/**
 * All looks for tracks on one dawn taken together: the largest count, in the weather noted.
 * `hatchlings` = how many a boil of this nest is expected to bring. Null when nobody looked.
 */
export function trackSighting(
  visits: readonly Visit[],
  night: Night,
  site: Site,
  hatchlings: number,
): Sighting | null {
  const used = visits.filter((visit) => visit.half === 'dawn' && visit.tracks !== null);
  if (used.length === 0) return null;
  const counted = Math.max(...used.map((visit) => visit.tracks ?? 0));
  const count = countClass(counted, site.boilTracks);
  const missed = missShare(used, hatchlings);
  return {
    kind: 'tracks',
    visits: used,
    night,
    count,
    counted,
    likelihood(after) {
      // Stragglers seen at dawn count from the next night.
      if (after > 0) return stragglers(count, stragglingFactor(after - 1));
      const none = after === 0 ? missed : (noTracksAfter[-after - 1] ?? noTracksLater);
      if (count === 'none') return none;
      return (1 - none) * (after === 0 ? tracksOfBoil[count] : tracksAfter[count]);
    },
    likelihoodNever: count === 'many' ? 0 : stragglers(count, withoutBoil),
    evenBeyond: 1 + Math.max(beforeBoil.length, noTracksAfter.length),
  };
}

/**
 * Chance that a boil's tracks are not found on its own dawn: 0.05 calm and dry, 0.15 in a breeze
 * or light rain, 0.4 in strong wind or heavy rain, 0.1 when nothing is said; higher for a nest of
 * few hatchlings (guess).
 */
function missShare(looks: readonly Visit[], hatchlings: number): number {
  const share = Math.min(
    ...looks.map(({ wind, rain }) => {
      if (wind === 'strong' || rain === 'heavy') return 0.4;
      if (wind === 'breeze' || rain === 'light') return 0.15;
      return wind === null && rain === null ? 0.1 : 0.05;
    }),
  );
  return share + (1 - share) * Math.exp(-hatchlings / 6);
}
