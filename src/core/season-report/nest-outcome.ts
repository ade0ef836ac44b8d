import { boilTracksOf } from '../domain/boil-tracks.ts';
import { type Night, parseNight } from '../domain/night.ts';
import { emergenceAt } from '../emergence/nest-emergence.ts';
import type { NestOut, SeasonForecast } from '../forecast/forecast.ts';
import type { NestRecord, SeasonRecord } from '../log/season-record.ts';

/**
 * What became of a nest, as far as the record and the odds tell:
 * - `met`: it boiled and somebody counted there; `missed`: only the tracks told;
 * - `unseen`: nobody saw anything, but the inventory found shells;
 * - `lost`: the sea took it; `never`: the inventory found no shell;
 * - `not told`: inventoried, but the shells were not counted;
 * - `waiting`: still in the ranking, with the chances that it came up unseen and that it never will.
 */
export type Outcome =
  | {
      readonly kind: 'met' | 'missed' | 'unseen' | 'lost' | 'never' | 'not told';
      readonly night: Night;
    }
  | { readonly kind: 'waiting'; readonly pAlready: number; readonly pNever: number };

/** One nest of a season with what became of it. */
export interface NestOutcome {
  readonly nest: NestRecord;
  readonly outcome: Outcome;
}

/** What became of every nest that a forecast speaks of, in order of their names. */
export function outcomesOf(record: SeasonRecord, forecast: SeasonForecast): readonly NestOutcome[] {
  const boilTracks = boilTracksOf(record.programme);
  const over = forecast.out.map((out) => ({
    nest: out.record,
    outcome: outcomeOf(out, record.zone, boilTracks),
  }));
  const waiting = forecast.nests.map(({ record: nest, pAlready, pNever }) => ({
    nest,
    outcome: { kind: 'waiting', pAlready, pNever } as const,
  }));
  return [...over, ...waiting].sort((a, b) => (a.nest.nest.id < b.nest.nest.id ? -1 : 1));
}

function outcomeOf({ record, reason, night }: NestOut, zone: string, boilTracks: number): Outcome {
  switch (reason) {
    case 'boiled': {
      const { totals } = emergenceAt(record, zone, boilTracks);
      return { kind: totals.some((total) => total.night === night) ? 'met' : 'missed', night };
    }
    case 'washed out':
      return { kind: 'lost', night };
    case 'inventoried': {
      const shells = shellsOf(record);
      return { kind: shells === null ? 'not told' : shells > 0 ? 'unseen' : 'never', night };
    }
  }
}

/** Most shells that an inventory of the nest found; null when none was counted. */
function shellsOf({ inventories }: NestRecord): number | null {
  return inventories.reduce<number | null>((most, { fact }) => {
    const { shells, date } = fact.details;
    if (typeof shells !== 'number' || parseNight(date) === null) return most;
    return Math.max(most ?? 0, shells);
  }, null);
}

/** How many nests had each outcome; `unseenByOdds` = waiting ones expected to be up already. */
export interface OutcomeCounts {
  readonly counts: Readonly<Record<Outcome['kind'], number>>;
  readonly nests: number;
  /** Of the nests still waiting, how many are expected to have come up unseen, and never to come. */
  readonly unseenByOdds: number;
  readonly neverByOdds: number;
}

/** Counts outcomes. */
export function countOutcomes(outcomes: readonly NestOutcome[]): OutcomeCounts {
  const counts = { met: 0, missed: 0, unseen: 0, lost: 0, never: 0, 'not told': 0, waiting: 0 };
  let unseenByOdds = 0;
  let neverByOdds = 0;
  for (const { outcome } of outcomes) {
    counts[outcome.kind]++;
    if (outcome.kind !== 'waiting') continue;
    unseenByOdds += outcome.pAlready;
    neverByOdds += outcome.pNever;
  }
  return { counts, nests: outcomes.length, unseenByOdds, neverByOdds };
}
