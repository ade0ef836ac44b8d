import { type EventOf, SeasonEvent } from '../domain/event.ts';
import { byWriting, writtenAt } from './order.ts';
import type { Amendment, Fact, Standing } from './season-record.ts';

export type AmendingEvent = EventOf<'corrected'> | EventOf<'withdrawn'>;
/** The corrections and withdrawals in a log, by the event they speak of. */
export type AmendmentsByTarget = ReadonlyMap<string, readonly AmendingEvent[]>;

const envelopeFields = new Set(['at', 'nest', 'volunteer']);

/**
 * Whether an event holds: no withdrawal that itself holds speaks of it. A withdrawal can be
 * withdrawn in turn. Withdrawals that speak of each other in a ring hold for nothing.
 */
export function holds(id: string, amendments: AmendmentsByTarget): boolean {
  return !(amendments.get(id) ?? []).some(
    (amendment) =>
      amendment.kind === 'withdrawn' &&
      !inRing(amendment.id, amendments) &&
      holds(amendment.id, amendments),
  );
}

function inRing(id: string, amendments: AmendmentsByTarget): boolean {
  const seen = new Set<string>();
  const open = [id];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    for (const amendment of amendments.get(next) ?? []) {
      if (amendment.id === id) return true;
      if (amendment.kind === 'withdrawn' && !seen.has(amendment.id)) {
        seen.add(amendment.id);
        open.push(amendment.id);
      }
    }
  }
  return false;
}

/**
 * A fact with its corrections laid on in the order they were written, and whether it still stands.
 * A correction whose values cannot be read is kept in the history but does not hold.
 */
export function standing<F extends Fact>(original: F, amendments: AmendmentsByTarget): Standing<F> {
  const own = amendments.get(original.id);
  if (own === undefined) return { fact: original, original, amendments: [], withdrawn: false };
  let fact = original;
  const history: Amendment[] = [];
  for (const event of [...own].sort((a, b) => byWriting(writtenAt(a), writtenAt(b)))) {
    let good = holds(event.id, amendments);
    if (good && event.kind === 'corrected') {
      const corrected = correct(fact, event.changes);
      good = corrected !== null;
      fact = corrected ?? fact;
    }
    history.push({ event, holds: good });
  }
  return { fact, original, amendments: history, withdrawn: !holds(original.id, amendments) };
}

/** The fact with some values replaced, or null when the outcome is not one that can be read. */
export function correct<F extends Fact>(
  fact: F,
  changes: Readonly<Record<string, unknown>>,
): F | null {
  const outer: Record<string, unknown> = {};
  const inner: Record<string, unknown> = {};
  for (const [field, value] of Object.entries(changes)) {
    if (envelopeFields.has(field) && field in fact) outer[field] = value;
    else inner[field] = value;
  }
  const whole =
    fact.kind === 'programme-described'
      ? { ...fact, ...outer, programme: { ...fact.programme, ...inner } }
      : fact.kind === 'table-laid-out'
        ? { ...fact, ...outer, ...inner }
        : { ...fact, ...outer, details: { ...fact.details, ...inner } };
  const read = SeasonEvent.safeParse(whole);
  if (!read.success || read.data.kind !== fact.kind || read.data.id !== fact.id) return null;
  return read.data as F;
}
