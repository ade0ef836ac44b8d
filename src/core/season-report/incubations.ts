import type { NestId } from '../domain/nest.ts';
import { type Night, asNight } from '../domain/night.ts';
import type { NestOutcome } from './nest-outcome.ts';

/** Nights from laying to the boil of one nest. A range of lay nights is taken at its middle. */
export interface Incubation {
  readonly nest: NestId;
  readonly zone: string | null;
  /** Middle of the range of lay nights. */
  readonly laid: number;
  readonly isLayNightCertain: boolean;
  readonly nights: number;
}

/** Numbers of one group in short. */
export interface Spread {
  readonly n: number;
  readonly mean: number;
  /** Standard deviation of the sample; null of one. */
  readonly sd: number | null;
  readonly least: number;
  readonly most: number;
}

/** The incubation of one group of nests. */
export interface IncubationGroup<Key> {
  readonly of: Key;
  readonly spread: Spread;
}

/** The incubation of every nest whose lay night and boil are known, in order of laying. */
export function incubationsOf(outcomes: readonly NestOutcome[]): readonly Incubation[] {
  return outcomes
    .flatMap(({ nest: { nest }, outcome }): Incubation[] => {
      if (outcome.kind !== 'met' && outcome.kind !== 'missed') return [];
      if (nest.layNight === null) return [];
      const latest = nest.layNightLatest ?? nest.layNight;
      const laid = (nest.layNight + latest) / 2;
      const isLayNightCertain = latest === nest.layNight;
      const nights = outcome.night - laid;
      return [{ nest: nest.id, zone: nest.zone, laid, isLayNightCertain, nights }];
    })
    .sort((a, b) => a.laid - b.laid || (a.nest < b.nest ? -1 : 1));
}

/** By zone, in order of their names; nests of no zone last, under null. */
export function byZone(
  incubations: readonly Incubation[],
): readonly IncubationGroup<string | null>[] {
  return grouped(incubations, ({ zone }) => zone).sort((a, b) =>
    a.of === null ? 1 : b.of === null ? -1 : a.of < b.of ? -1 : 1,
  );
}

/** By lay week; a week is told by the night of its Monday. */
export function byLayWeek(incubations: readonly Incubation[]): readonly IncubationGroup<Night>[] {
  return grouped(incubations, ({ laid }) => mondayOf(laid)).sort((a, b) => a.of - b.of);
}

/** The Monday on or before a night; 5 January 1970, day 4, was one. */
export function mondayOf(night: number): Night {
  return asNight(Math.floor((night - 4) / 7) * 7 + 4);
}

/** Mean, spread and bounds of some numbers; null of none. */
export function spreadOf(values: readonly number[]): Spread | null {
  const n = values.length;
  if (n === 0) return null;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return {
    n,
    mean,
    sd: n < 2 ? null : Math.sqrt(squares / (n - 1)),
    least: Math.min(...values),
    most: Math.max(...values),
  };
}

function grouped<Key>(
  incubations: readonly Incubation[],
  keyOf: (incubation: Incubation) => Key,
): IncubationGroup<Key>[] {
  const groups = new Map<Key, number[]>();
  for (const one of incubations) {
    const key = keyOf(one);
    groups.set(key, [...(groups.get(key) ?? []), one.nights]);
  }
  return [...groups].flatMap(([of, nights]) => {
    const spread = spreadOf(nights);
    return spread === null ? [] : [{ of, spread }];
  });
}
