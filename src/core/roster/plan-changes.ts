import type { Night } from '../domain/night.ts';
import type { WatchName } from '../domain/roster.ts';
import type { Placement } from './roster-question.ts';

/** What is different for one person on one night; null = nowhere. */
export interface PlanChange {
  readonly night: Night;
  readonly sitter: string;
  readonly from: string | null;
  readonly to: string | null;
}

/** What is different for whom between two plans, night by night, then by name. */
export function planChanges(
  before: readonly Placement[],
  after: readonly Placement[],
): readonly PlanChange[] {
  const old = byPersonAndNight(before);
  const now = byPersonAndNight(after);
  return [...new Set([...old.keys(), ...now.keys()])]
    .flatMap((key): PlanChange[] => {
      const [was, is] = [old.get(key), now.get(key)];
      const one = is ?? was;
      if (one === undefined) return [];
      const [from, to] = [
        was === undefined ? null : placeOf(was),
        is === undefined ? null : placeOf(is),
      ];
      return from === to ? [] : [{ night: one.night, sitter: one.sitter, from, to }];
    })
    .sort((a, b) => a.night - b.night || (a.sitter < b.sitter ? -1 : 1));
}

function byPersonAndNight(placements: readonly Placement[]): Map<string, Placement> {
  return new Map(
    placements.map((placement) => [`${placement.night} ${placement.sitter}`, placement]),
  );
}

function placeOf({ nests, watch }: { nests: readonly string[]; watch: WatchName }): string {
  return watch === 'late' ? `${nests.join('+')} (late)` : nests.join('+');
}
