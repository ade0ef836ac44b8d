import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import {
  type ReplicaMemory,
  type ReplicaShelf,
  type ReplicaStep,
  afterStep,
  nothingExchanged,
} from '../../core/replication/replica-shelf.ts';

/** A device's place at a hub: as whom, with which key, for which record. */
export interface Membership {
  readonly address: string;
  readonly key: string;
  /** The record of this device that is exchanged. */
  readonly record: string;
  readonly programme: { readonly id: string; readonly name: string };
  readonly person: string;
  readonly device: string;
  readonly role: 'lead' | 'sitter' | 'permit holder' | 'reader';
  readonly teams: readonly string[];
}

interface Replicas extends DBSchema {
  memberships: { key: string; value: Membership };
  /** The steps of the exchanges of a record, in order; together they are its memory. */
  steps: { key: number; value: { record: string; step: ReplicaStep }; indexes: { record: string } };
}

type Database = IDBPDatabase<Replicas>;

/**
 * Memberships, and what was exchanged, in a database of their own in this browser: no backup and no
 * export holds a key.
 */
export class BrowserReplicas {
  readonly #name: string;
  #opened: Promise<Database> | null = null;

  constructor(name = 'firstdark-hub') {
    this.#name = name;
  }

  /** The membership of a record; null when there is none, or the browser keeps nothing for us. */
  async membership(record: string): Promise<Membership | null> {
    try {
      return (await (await this.#open()).get('memberships', record)) ?? null;
    } catch {
      return null;
    }
  }

  async join(membership: Membership): Promise<void> {
    await (await this.#open()).put('memberships', membership, membership.record);
  }

  /** Forgets the key and what was exchanged. The record itself stays. */
  async leave(record: string): Promise<void> {
    const database = await this.#open();
    await database.delete('memberships', record);
    await new BrowserReplicaShelf(() => this.#open(), record).forget();
  }

  shelf(record: string): ReplicaShelf {
    return new BrowserReplicaShelf(() => this.#open(), record);
  }

  #open(): Promise<Database> {
    this.#opened ??= openDB<Replicas>(this.#name, 1, {
      upgrade(database) {
        database.createObjectStore('memberships');
        const steps = database.createObjectStore('steps', { autoIncrement: true });
        steps.createIndex('record', 'record');
      },
    }).catch((error: unknown) => {
      this.#opened = null;
      throw error;
    });
    return this.#opened;
  }
}

/** How many steps are kept apart before they are put together. */
const mostSteps = 300;

class BrowserReplicaShelf implements ReplicaShelf {
  readonly #open: () => Promise<Database>;
  readonly #record: string;
  #memory: ReplicaMemory | null = null;
  #steps = 0;

  constructor(open: () => Promise<Database>, record: string) {
    this.#open = open;
    this.#record = record;
  }

  async read(): Promise<ReplicaMemory> {
    if (this.#memory !== null) return this.#memory;
    const steps = await (await this.#open()).getAllFromIndex('steps', 'record', this.#record);
    this.#steps = steps.length;
    return (this.#memory = steps.reduce(
      (memory, { step }) => afterStep(memory, step),
      nothingExchanged,
    ));
  }

  async keep(step: ReplicaStep): Promise<void> {
    const memory = afterStep(await this.read(), step);
    const database = await this.#open();
    await database.add('steps', { record: this.#record, step });
    this.#memory = memory;
    this.#steps += 1;
    if (this.#steps > mostSteps) await this.#write(memory);
  }

  async forget(): Promise<void> {
    await this.#write(nothingExchanged);
  }

  async forgetRefusals(): Promise<void> {
    await this.#write({ ...(await this.read()), refused: new Map() });
  }

  /** One step in place of all that were kept. */
  async #write(memory: ReplicaMemory): Promise<void> {
    const transaction = (await this.#open()).transaction('steps', 'readwrite');
    const keys = await transaction.store.index('record').getAllKeys(this.#record);
    const changes: Promise<unknown>[] = keys.map((key) => transaction.store.delete(key));
    const isNothing = memory === nothingExchanged;
    if (!isNothing) {
      const step: ReplicaStep = {
        ...(memory.cursor === null ? {} : { cursor: memory.cursor }),
        atHub: [...memory.atHub],
        sent: [...memory.sent],
        refused: [...memory.refused.values()],
        broughtBy: [...memory.broughtBy],
      };
      changes.push(transaction.store.add({ record: this.#record, step }));
    }
    await Promise.all([...changes, transaction.done]);
    this.#memory = memory;
    this.#steps = isNothing ? 0 : 1;
  }
}
