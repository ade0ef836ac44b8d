import { parseInstant } from '../domain/instant.ts';
import type { SeasonEvent } from '../domain/event.ts';
import { byTarget, isAmending, treeOf } from './amendment-tree.ts';
import { valuesOf } from './correct.ts';
import { inOrderOfWriting } from './order.ts';
import { saysTheSame } from './same-event.ts';
import type { Fact, SeasonRecord, Standing } from './season-record.ts';
import { standing } from './standing.ts';

/** One value of a fact before and after; undefined = nothing was said. */
export interface Change {
  readonly field: string;
  readonly from: unknown;
  readonly to: unknown;
}

/** A fact as it stood once one more event about it was written. */
export interface Version {
  /** The event that made it: who wrote it, on which device, and for what reason. */
  readonly event: SeasonEvent;
  readonly written_ms: number;
  /** What it did to the fact; `no effect` when it could not be used or was written for nothing. */
  readonly did: 'recorded' | 'changed' | 'withdrawn' | 'restored' | 'no effect';
  readonly changes: readonly Change[];
  readonly fact: Fact;
  readonly withdrawn: boolean;
}

/**
 * The versions of a fact in the order they were written, the first as it was recorded; empty when
 * no such fact is on record. The last is how it stands now.
 */
export function history(record: SeasonRecord, id: string): readonly Version[] {
  const original = record.events.get(id);
  if (original === undefined || isAmending(original)) return [];
  const amending = treeOf(id, byTarget([...record.events.values()].filter(isAmending)));
  const written = inOrderOfWriting(amending, (event) => event);
  let before = standing(original, new Map());
  const versions: Version[] = [
    { ...stamp(original), did: 'recorded', changes: [], fact: original, withdrawn: false },
  ];
  written.forEach((event, index) => {
    const after = standing(original, byTarget(written.slice(0, index + 1)));
    versions.push({ ...stamp(event), ...difference(before, after) });
    before = after;
  });
  return versions;
}

function stamp(event: SeasonEvent): Pick<Version, 'event' | 'written_ms'> {
  return { event, written_ms: parseInstant(event.written) ?? 0 };
}

function difference(
  before: Standing,
  after: Standing,
): Pick<Version, 'did' | 'changes' | 'fact' | 'withdrawn'> {
  const { fact, withdrawn } = after;
  const changes = changesBetween(before.fact, fact);
  const did =
    withdrawn !== before.withdrawn
      ? withdrawn
        ? 'withdrawn'
        : 'restored'
      : changes.length > 0
        ? 'changed'
        : 'no effect';
  return { did, changes, fact, withdrawn };
}

function changesBetween(before: Fact, after: Fact): readonly Change[] {
  const [old, now] = [valuesOf(before), valuesOf(after)];
  return [...new Set([...Object.keys(old), ...Object.keys(now)])]
    .filter((field) => !saysTheSame(old[field], now[field]))
    .map((field) => ({ field, from: old[field], to: now[field] }));
}
