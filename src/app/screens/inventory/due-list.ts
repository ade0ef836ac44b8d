import type { Night } from '../../../core/domain/night.ts';
import type { InventoryDue } from '../../../core/inventory/inventory-due.ts';
import { dueOf } from '../../../core/inventory/nest-due.ts';
import type { NestRecord, SeasonRecord } from '../../../core/log/season-record.ts';

export interface DueNest {
  readonly record: NestRecord;
  readonly due: InventoryDue;
}

/** The nests of a season by when they are counted. */
export interface DueList {
  /** Due today or before, the longest overdue first. */
  readonly now: readonly DueNest[];
  /** Their day is known and to come, the next first. */
  readonly later: readonly DueNest[];
  readonly notKnown: readonly DueNest[];
  /** Counted, the last first; and nests that the sea took. */
  readonly over: readonly DueNest[];
}

/** What is due on a day and after it. */
export function dueList(season: SeasonRecord, today: Night): DueList {
  const all = [...season.nests.values()].map((record) => ({ record, due: dueOf(record, season) }));
  const onOf = ({ due }: DueNest): number => (due.kind === 'not known' ? Infinity : due.on);
  const soonest = [...all].sort((a, b) => onOf(a) - onOf(b));
  return {
    now: soonest.filter(({ due }) => due.kind === 'due' && due.on <= today),
    later: soonest.filter(({ due }) => due.kind === 'due' && due.on > today),
    notKnown: soonest.filter(({ due }) => due.kind === 'not known'),
    over: soonest
      .filter(({ due }) => due.kind === 'counted' || due.kind === 'washed out')
      .reverse(),
  };
}
