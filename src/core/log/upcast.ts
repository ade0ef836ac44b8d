import { v5 } from 'uuid';
import * as z from 'zod/mini';
import { SCHEMA, SeasonEvent } from '../domain/event.ts';
import type { LoggedEvent } from './event-log.ts';
import { saysTheSame } from './same-event.ts';

/** One numbered step that lifts events of shape `from` to shape `from + 1`. Pure. */
export interface UpcastStep {
  readonly from: number;
  readonly name: string;
  readonly lift: (old: Readonly<Record<string, unknown>>) => Record<string, unknown>;
}

/**
 * The steps in order, the first lifting shape 1. None yet: shape 1 is the first and the only one.
 * A change to the shape of an event adds a step here, raises `SCHEMA`, and tests it on a real old
 * record (DEVELOPERS.md, "A new event").
 */
const steps: readonly UpcastStep[] = [];

/** Throws unless the steps are numbered 1, 2, 3 ... up to the shape written today. */
export function checkSteps(list: readonly UpcastStep[], current: number): void {
  list.forEach((step, index) => {
    if (step.from !== index + 1) {
      throw new Error(`Step "${step.name}" is numbered ${step.from}, wanted ${index + 1}.`);
    }
  });
  if (list.length !== current - 1) {
    throw new Error(`Shape ${current} needs ${current - 1} steps, there are ${list.length}.`);
  }
}
checkSteps(steps, SCHEMA);

/** Lifts an event of shape `schema` to today's by the steps from there on, in order. */
export function lift(
  old: Readonly<Record<string, unknown>>,
  schema: number,
  list: readonly UpcastStep[],
): Record<string, unknown> {
  return list
    .slice(schema - 1)
    .reduce<Record<string, unknown>>(
      (event, step) => ({ ...step.lift(event), schema: step.from + 1 }),
      { ...old },
    );
}

const Raw = z.looseObject({ id: z.string(), schema: z.int().check(z.positive()) });

/**
 * Reads whatever lies in a log: lifts older shapes step by step, then checks it against today's.
 * What cannot be read comes back as `foreign`, with the reason, and is never dropped.
 */
export function readEvent(raw: unknown): LoggedEvent {
  const outline = Raw.safeParse(raw);
  if (!outline.success) {
    const id = idIn(raw);
    return { state: 'foreign', id, raw, why: 'it has no id or no shape number' };
  }
  const { id, schema } = outline.data;
  if (schema > SCHEMA) {
    const why = `it was written by a newer version (shape ${schema}, this one reads ${SCHEMA})`;
    return { state: 'foreign', id, raw, why };
  }
  const read = SeasonEvent.safeParse(lift(outline.data, schema, steps));
  if (read.success) {
    const event = read.data;
    return saysTheSame(event, raw) ? { state: 'known', event } : { state: 'known', event, raw };
  }
  const first = read.error.issues[0];
  const place = first === undefined || first.path.length === 0 ? 'event' : first.path.join('.');
  return { state: 'foreign', id, raw, why: `${place}: ${first?.message ?? 'not readable'}` };
}

/** What goes to storage for an event: the thing as it was found, or the event itself. */
export function rawOf(logged: LoggedEvent): unknown {
  return logged.state === 'known' ? (logged.raw ?? logged.event) : logged.raw;
}

/** Namespace of the names given to things in a log that have none; drawn once. */
const UNNAMED = '0f6d3c0e-7a55-4b7e-9a1d-6f0f5d2b9c41';

/** Its own id, or one that follows from what it says, so that it is kept once and not twice. */
function idIn(raw: unknown): string {
  const named = z.looseObject({ id: z.string().check(z.minLength(1)) }).safeParse(raw);
  if (named.success) return named.data.id;
  return `unnamed:${v5(JSON.stringify(raw ?? null), UNNAMED)}`;
}
