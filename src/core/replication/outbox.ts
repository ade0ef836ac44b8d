import * as z from 'zod/mini';
import { EventId } from '../domain/event.ts';
import { type LoggedEvent, idOf } from '../log/event-log.ts';
import { rawOf } from '../log/upcast.ts';
import type { Batch, Identity, Refusal } from './hub.ts';
import type { ReplicaMemory } from './replica-shelf.ts';

/** An event on its way to the hub. */
export interface Outgoing {
  readonly id: string;
  readonly raw: unknown;
  /** Written by somebody else than this device under its own name. */
  readonly isCarried: boolean;
}

/** What a device has for its hub, and what it cannot send. */
export interface Outbox {
  /** In the order of ids, so that an event goes before those that speak of it. */
  readonly outgoing: readonly Outgoing[];
  /** Damaged events: they stay in the log of this device. */
  readonly unsendable: readonly Refusal[];
}

const Named = z.looseObject({ id: EventId, author: z.string(), device: z.string() });

/** The events of a log that the hub is not known to hold, without those it refused for good. */
export function outboxOf(
  log: readonly LoggedEvent[],
  memory: ReplicaMemory,
  identity: Identity,
): Outbox {
  const outgoing: Outgoing[] = [];
  const unsendable: Refusal[] = [];
  for (const logged of log) {
    const id = idOf(logged);
    if (!isDue(id, memory)) continue;
    const raw = rawOf(logged);
    const named = Named.safeParse(raw);
    if (!named.success) {
      const why = logged.state === 'foreign' ? logged.why : 'it has no readable author';
      const reason = `This device holds it, but cannot send it: ${why}. A backup takes it along.`;
      unsendable.push({ id, reason, again: false });
      continue;
    }
    const { author, device } = named.data;
    const isCarried = author !== identity.person || device !== identity.device;
    outgoing.push({ id, raw, isCarried });
  }
  outgoing.sort((a, b) => (a.id < b.id ? -1 : 1));
  return { outgoing, unsendable };
}

/** Whether the hub is still to be offered an event. */
export function isDue(id: string, { atHub, sent, refused }: ReplicaMemory): boolean {
  return !atHub.has(id) && !sent.has(id) && refused.get(id)?.again !== false;
}

/** Events in one batch, at most. */
export const eventsInBatch = 200;
/** Characters of JSON in one batch, about, at most: short enough for a bad line. */
const charactersInBatch = 250_000;

/** The next batch off the front of what is outgoing: at least one event. */
export function nextBatch(
  outgoing: readonly Outgoing[],
  mostEvents = eventsInBatch,
): readonly Outgoing[] {
  let characters = 0;
  const most = Math.max(1, mostEvents);
  const fits = outgoing.slice(0, most).findIndex(({ raw }, index) => {
    characters += JSON.stringify(raw).length;
    return index > 0 && characters > charactersInBatch;
  });
  return outgoing.slice(0, fits === -1 ? most : fits);
}

/** The batch as it is handed over. */
export function batchOf(outgoing: readonly Outgoing[]): Batch {
  const rawsWhere = (isCarried: boolean): readonly unknown[] =>
    outgoing.filter((event) => event.isCarried === isCarried).map(({ raw }) => raw);
  return { events: rawsWhere(false), carried: rawsWhere(true) };
}
