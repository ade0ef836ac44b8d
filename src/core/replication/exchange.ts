import { type EventLog, type LoggedEvent, idOf } from '../log/event-log.ts';
import type { Hub, HubProblem, Identity, Refusal } from './hub.ts';
import { type Outgoing, batchOf, eventsInBatch, nextBatch, outboxOf } from './outbox.ts';
import type { ReplicaShelf } from './replica-shelf.ts';

/** How far an exchange has come. */
export interface Progress {
  readonly phase: 'sending' | 'receiving';
  readonly done: number;
  /** As far as is known. */
  readonly of: number;
}

/** What became of an exchange. Also one that broke off has sent and received what it counts. */
export interface Exchanged {
  /** Null when both sides hold the same, but for what was refused. */
  readonly problem: HubProblem | null;
  /** Events that are new to the hub. */
  readonly sent: number;
  /** Events that are new to this device. */
  readonly received: number;
  /** Events that were in the log when it began and that the hub does not hold yet, without those it refused for good. */
  readonly waiting: number;
  readonly refused: readonly Refusal[];
}

export interface ExchangeParts {
  readonly log: Pick<EventLog, 'read' | 'append'>;
  readonly shelf: ReplicaShelf;
  readonly hub: Hub;
  readonly identity: Identity;
}

/**
 * Exchanges events with a hub until both sides hold the same: first what this device has for it,
 * then what it has for this device. It can break off at any moment and be done again without harm:
 * an event counts as sent once the hub says so, and as received once it is on this device's storage.
 *
 * A hub that was put back to an older backup no longer knows the place up to which this device has
 * read. Then everything is offered and read again, and what the hub has lost comes back to it.
 */
export async function exchange(
  parts: ExchangeParts,
  tell: (progress: Progress) => void = () => undefined,
): Promise<Exchanged> {
  const counts = { sent: 0, received: 0 };
  const read = await parts.log.read();
  if (!read.ok) return { ...counts, problem: logProblem(read.problem), waiting: 0, refused: [] };
  const held = read.events;
  let problem = await once(parts, held, counts, tell);
  if (problem?.kind === 'cursor unknown') {
    await parts.shelf.forget();
    problem = await once(parts, held, counts, tell);
  }
  const memory = await parts.shelf.read();
  const { outgoing, unsendable } = outboxOf(held, memory, parts.identity);
  return {
    ...counts,
    problem,
    waiting: outgoing.length,
    refused: [...memory.refused.values(), ...unsendable],
  };
}

interface Counts {
  sent: number;
  received: number;
}

async function once(
  parts: ExchangeParts,
  held: readonly LoggedEvent[],
  counts: Counts,
  tell: (progress: Progress) => void,
): Promise<HubProblem | null> {
  const problem =
    (await sendAll(parts, held, counts, tell)) ?? (await receiveAll(parts, counts, tell));
  if (problem !== null) return problem;
  const { sent } = await parts.shelf.read();
  if (sent.size === 0) return null;
  // It had these, and has them no more.
  await parts.shelf.keep({ lost: [...sent] });
  return (await sendAll(parts, held, counts, tell)) ?? (await receiveAll(parts, counts, tell));
}

/** Sends until nothing is left, or what is left is refused for now. */
async function sendAll(
  parts: ExchangeParts,
  held: readonly LoggedEvent[],
  counts: Counts,
  tell: (progress: Progress) => void,
): Promise<HubProblem | null> {
  for (let left = Infinity; ;) {
    const { outgoing } = outboxOf(held, await parts.shelf.read(), parts.identity);
    // An event may be refused until the one it speaks of is there: once more while that helps.
    if (outgoing.length === 0 || outgoing.length >= left) return null;
    left = outgoing.length;
    const problem = await sendThrough(parts, outgoing, counts, tell);
    if (problem !== null) return problem;
  }
}

async function sendThrough(
  { shelf, hub }: ExchangeParts,
  outgoing: readonly Outgoing[],
  counts: Counts,
  tell: (progress: Progress) => void,
): Promise<HubProblem | null> {
  let done = 0;
  let mostEvents = eventsInBatch;
  while (done < outgoing.length) {
    tell({ phase: 'sending', done, of: outgoing.length });
    const batch = nextBatch(outgoing.slice(done), mostEvents);
    const answer = await hub.send(batchOf(batch));
    if (!answer.ok) {
      if (answer.problem.kind !== 'too large') return answer.problem;
      if (batch.length > 1) {
        mostEvents = Math.ceil(batch.length / 2);
        continue;
      }
      const refused = batch.map(({ id }) => ({ id, reason: answer.problem.message, again: false }));
      await shelf.keep({ refused });
      done += 1;
      continue;
    }
    const { kept, known, refused } = answer.value;
    await shelf.keep({ sent: [...kept, ...known], refused });
    counts.sent += kept.length;
    done += batch.length;
  }
  tell({ phase: 'sending', done, of: outgoing.length });
  return null;
}

async function receiveAll(
  { log, shelf, hub }: ExchangeParts,
  counts: Counts,
  tell: (progress: Progress) => void,
): Promise<HubProblem | null> {
  let { cursor } = await shelf.read();
  let done = 0;
  for (;;) {
    const answer = await hub.after(cursor);
    if (!answer.ok) return answer.problem;
    const page = answer.value;
    const appended = await log.append(page.events.map(({ logged }) => logged));
    if (!appended.ok) return logProblem(appended.problem);
    counts.received += appended.added;
    done += page.events.length;
    const ids = page.events.map(({ logged }) => idOf(logged));
    const broughtBy = page.events.flatMap(({ logged, broughtBy: person }) =>
      person === null ? [] : [[idOf(logged), person] as const],
    );
    if (page.events.length > 0 || page.cursor !== cursor) {
      await shelf.keep({ cursor: page.cursor, atHub: ids, broughtBy });
    }
    cursor = page.cursor;
    if (done > 0) tell({ phase: 'receiving', done, of: done + page.behind });
    if (!page.more) return null;
  }
}

/** The device's own log failed: the hub is not at fault, and nothing is lost there. */
function logProblem(problem: { readonly message: string }): HubProblem {
  return { kind: 'failed', message: problem.message };
}
