import { SeasonEvent } from '../domain/event.ts';
import type { Fact } from './season-record.ts';

export type Corrected<F extends Fact> =
  | {
      readonly ok: true;
      readonly fact: F;
      /** Fields such a fact does not have. */ readonly ignored: readonly string[];
    }
  | { readonly ok: false; readonly message: string };

/** What can be corrected of a fact, by field name: when it happened, what it speaks of, its details. */
export function valuesOf(fact: Fact): Readonly<Record<string, unknown>> {
  switch (fact.kind) {
    case 'programme-described':
      return { ...fact.programme, at: fact.at };
    case 'table-laid-out':
      return { at: fact.at, table: fact.table, columns: fact.columns, newline: fact.newline };
    case 'nest-registered':
    case 'visit-noted':
    case 'orientation-recorded':
    case 'inventory-recorded':
      return { ...fact.details, at: fact.at, nest: fact.nest };
    case 'volunteer-enrolled':
    case 'availability-given':
    case 'weekly-pattern-given':
      return { ...fact.details, at: fact.at, volunteer: fact.volunteer };
    case 'conditions-noted':
    case 'sight-judged':
    case 'pinned':
    case 'night-published':
      return { ...fact.details, at: fact.at };
  }
}

/**
 * The fact with some values replaced; null takes a value away. Fails when the outcome is not one
 * that can be read, with the field and what was expected there.
 */
export function correct<F extends Fact>(
  fact: F,
  changes: Readonly<Record<string, unknown>>,
): Corrected<F> {
  const read = SeasonEvent.safeParse(withValues(fact, changes));
  if (!read.success) {
    const first = read.error.issues[0];
    const field = first?.path.at(-1) ?? 'value';
    return { ok: false, message: `${String(field)}: ${first?.message ?? 'not readable'}` };
  }
  const outcome = read.data;
  if (!isSameKind(fact, outcome)) return { ok: false, message: 'it changes the kind of the note' };
  const values = valuesOf(outcome);
  const ignored = Object.keys(changes).filter((field) => !Object.hasOwn(values, field));
  return { ok: true, fact: outcome, ignored };
}

function isSameKind<F extends Fact>(fact: F, outcome: SeasonEvent): outcome is F {
  return outcome.kind === fact.kind && outcome.id === fact.id;
}

function withValues(fact: Fact, changes: Readonly<Record<string, unknown>>): unknown {
  const { at = fact.at, ...rest } = changes;
  switch (fact.kind) {
    case 'programme-described':
      return { ...fact, at, programme: { ...fact.programme, ...rest } };
    case 'table-laid-out': {
      const { table = fact.table, columns = fact.columns, newline = fact.newline } = rest;
      return { ...fact, at, table, columns, newline };
    }
    case 'nest-registered':
    case 'visit-noted':
    case 'orientation-recorded':
    case 'inventory-recorded': {
      const { nest = fact.nest, ...details } = rest;
      return { ...fact, at, nest, details: { ...fact.details, ...details } };
    }
    case 'volunteer-enrolled':
    case 'availability-given':
    case 'weekly-pattern-given': {
      const { volunteer = fact.volunteer, ...details } = rest;
      return { ...fact, at, volunteer, details: { ...fact.details, ...details } };
    }
    case 'conditions-noted':
    case 'sight-judged':
    case 'pinned':
    case 'night-published':
      return { ...fact, at, details: { ...fact.details, ...rest } };
  }
}
