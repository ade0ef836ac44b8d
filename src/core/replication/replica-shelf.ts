import type { Refusal } from './hub.ts';

/** What a device remembers between two exchanges with its hub. */
export interface ReplicaMemory {
  /** Up to where it has read; null = nothing yet. */
  readonly cursor: string | null;
  /** Ids of the events that were read from the hub. */
  readonly atHub: ReadonlySet<string>;
  /** Ids of the events that the hub said it has, and that have yet to be read back from it. */
  readonly sent: ReadonlySet<string>;
  /** What the hub refused, by id. */
  readonly refused: ReadonlyMap<string, Refusal>;
  /** Who handed an event to the hub, by its id, where its own device did not. */
  readonly broughtBy: ReadonlyMap<string, string>;
}

/** What one step of an exchange adds to it. */
export interface ReplicaStep {
  readonly cursor?: string;
  readonly atHub?: readonly string[];
  readonly sent?: readonly string[];
  /** What was sent and did not come back: the hub has lost it. */
  readonly lost?: readonly string[];
  readonly refused?: readonly Refusal[];
  readonly broughtBy?: readonly (readonly [id: string, person: string])[];
}

/** Keeps the memory of one record's exchanges. Losing it costs time, never an event. */
export interface ReplicaShelf {
  read(): Promise<ReplicaMemory>;
  keep(step: ReplicaStep): Promise<void>;
  /** As if nothing had ever been exchanged. */
  forget(): Promise<void>;
  /** Offers what was refused once more with the next exchange. */
  forgetRefusals(): Promise<void>;
}

/** The memory after a step. */
export function afterStep(memory: ReplicaMemory, step: ReplicaStep): ReplicaMemory {
  const arrived = step.atHub ?? [];
  const acknowledged = step.sent ?? [];
  const refused = new Map(memory.refused);
  for (const id of [...arrived, ...acknowledged]) refused.delete(id);
  for (const refusal of step.refused ?? []) refused.set(refusal.id, refusal);
  const sent = new Set([...memory.sent, ...acknowledged]);
  for (const id of [...arrived, ...(step.lost ?? [])]) sent.delete(id);
  return {
    cursor: step.cursor ?? memory.cursor,
    atHub: arrived.length === 0 ? memory.atHub : new Set([...memory.atHub, ...arrived]),
    sent,
    refused,
    broughtBy: new Map([...memory.broughtBy, ...(step.broughtBy ?? [])]),
  };
}

export const nothingExchanged: ReplicaMemory = {
  cursor: null,
  atHub: new Set(),
  sent: new Set(),
  refused: new Map(),
  broughtBy: new Map(),
};

/** A shelf that lives as long as the process. */
export class MemoryReplicaShelf implements ReplicaShelf {
  #memory = nothingExchanged;

  read(): Promise<ReplicaMemory> {
    return Promise.resolve(this.#memory);
  }

  keep(step: ReplicaStep): Promise<void> {
    this.#memory = afterStep(this.#memory, step);
    return Promise.resolve();
  }

  forget(): Promise<void> {
    this.#memory = nothingExchanged;
    return Promise.resolve();
  }

  forgetRefusals(): Promise<void> {
    this.#memory = { ...this.#memory, refused: new Map() };
    return Promise.resolve();
  }
}
