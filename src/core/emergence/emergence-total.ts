import type { Night } from '../domain/night.ts';
import type { Emergence } from '../domain/visit.ts';
import type { BoilCount } from './boil-count.ts';

/** How the counts of several people were put together. */
export type Basis = 'one count' | 'parts added' | 'largest count of the whole';

/** What came up at one nest on one night, by all who counted; null is "not counted". */
export interface EmergenceTotal {
  readonly night: Night;
  readonly emergence: Emergence;
  readonly counts: readonly BoilCount[];
  readonly counters: readonly string[];
  readonly basis: Basis;
  readonly emerged: number;
  readonly reachedWater: number | null;
  readonly astray: number | null;
  readonly taken: number | null;
  /** Came up and were not followed to any end. Null when no end was counted; never below 0. */
  readonly unfollowed: number | null;
  readonly first_ms: number | null;
  readonly last_ms: number | null;
}

/**
 * One total for each night and kind of emergence, in order of nights, the boil before stragglers.
 * Counts of a part (a side of the nest, a stretch of time) add up. A count of the whole does not add
 * to anything: of several the largest holds, and it gives way when the parts come to more. The number that
 * somebody gave at the end of a watch does not add to what the same person counted that night.
 */
export function emergenceTotals(counts: readonly BoilCount[]): readonly EmergenceTotal[] {
  const groups = new Map<string, BoilCount[]>();
  for (const count of withoutRepeats(counts)) {
    const key = `${count.night} ${count.emergence}`;
    groups.set(key, [...(groups.get(key) ?? []), count]);
  }
  return [...groups.values()]
    .flatMap(([first, ...rest]) => (first === undefined ? [] : [totalOf(first, rest)]))
    .sort((a, b) => a.night - b.night || (a.emergence < b.emergence ? -1 : 1));
}

function withoutRepeats(counts: readonly BoilCount[]): readonly BoilCount[] {
  const counted = new Set(
    counts.filter(({ isCounted }) => isCounted).map(({ counter, night }) => `${night} ${counter}`),
  );
  return counts.filter(
    ({ isCounted, counter, night }) =>
      isCounted || counter === null || !counted.has(`${night} ${counter}`),
  );
}

/** The night of the boil: the first on which one was counted; null when none was. */
export function boilNight(totals: readonly EmergenceTotal[]): Night | null {
  return totals.find(({ emergence }) => emergence === 'boil')?.night ?? null;
}

function totalOf(first: BoilCount, others: readonly BoilCount[]): EmergenceTotal {
  const counts = [first, ...others].sort((a, b) => (a.id < b.id ? -1 : 1));
  const parts = counts.filter(({ counting }) => counting === 'part');
  const wholes = counts.filter(({ counting }) => counting === 'whole');
  const whole = wholes.reduce<BoilCount | null>(
    (best, one) => (best === null || one.emerged > best.emerged ? one : best),
    null,
  );
  const added = sum(parts, ({ emerged }) => emerged) ?? 0;
  const goesByWhole = whole !== null && whole.emerged >= added;
  const used = goesByWhole ? [whole] : parts;
  const [reachedWater, astray, taken] = [
    sum(used, (one) => one.reachedWater),
    sum(used, (one) => one.astray),
    sum(used, (one) => one.taken),
  ];
  const emerged = goesByWhole ? whole.emerged : added;
  const followed =
    reachedWater === null && astray === null && taken === null
      ? null
      : (reachedWater ?? 0) + (astray ?? 0) + (taken ?? 0);
  const times = (of: (one: BoilCount) => number | null): readonly number[] =>
    counts.flatMap((one) => of(one) ?? []);
  return {
    night: first.night,
    emergence: first.emergence,
    counts,
    counters: [...new Set(counts.flatMap(({ counter }) => counter ?? []))].sort(),
    basis:
      counts.length === 1
        ? 'one count'
        : goesByWhole
          ? 'largest count of the whole'
          : 'parts added',
    emerged,
    reachedWater,
    astray,
    taken,
    unfollowed: followed === null ? null : Math.max(0, emerged - followed),
    first_ms: least(times((one) => one.first_ms)),
    last_ms: greatest(times((one) => one.last_ms)),
  };
}

/** Sum of what was counted; null when nobody counted it. */
function sum(counts: readonly BoilCount[], of: (one: BoilCount) => number | null): number | null {
  return counts.reduce<number | null>((total, one) => {
    const value = of(one);
    return value === null ? total : (total ?? 0) + value;
  }, null);
}

const least = (times: readonly number[]): number | null =>
  times.length === 0 ? null : Math.min(...times);

const greatest = (times: readonly number[]): number | null =>
  times.length === 0 ? null : Math.max(...times);
