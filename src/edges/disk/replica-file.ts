import { readFile, rename, writeFile } from 'node:fs/promises';
import * as z from 'zod/mini';
import {
  type ReplicaMemory,
  type ReplicaShelf,
  type ReplicaStep,
  afterStep,
  nothingExchanged,
} from '../../core/replication/replica-shelf.ts';
import { codeOf } from './log-problem.ts';

const Refusals = z.array(z.object({ id: z.string(), reason: z.string(), again: z.boolean() }));
const Kept = z.object({
  cursor: z.nullable(z.string()),
  at_hub: z.array(z.string()),
  sent: z.array(z.string()),
  refused: Refusals,
  brought_by: z.array(z.tuple([z.string(), z.string()])),
});

/**
 * What was exchanged with a hub, in a file beside the log. It is written when `save` is called; a
 * file that is missing or damaged means that everything is offered and read once more.
 */
export class ReplicaFile implements ReplicaShelf {
  readonly #path: string;
  #memory: ReplicaMemory | null = null;

  constructor(path: string) {
    this.#path = path;
  }

  async read(): Promise<ReplicaMemory> {
    return (this.#memory ??= await this.#load());
  }

  async keep(step: ReplicaStep): Promise<void> {
    this.#memory = afterStep(await this.read(), step);
  }

  forget(): Promise<void> {
    this.#memory = nothingExchanged;
    return Promise.resolve();
  }

  async forgetRefusals(): Promise<void> {
    this.#memory = { ...(await this.read()), refused: new Map() };
  }

  /** Writes the memory down, in place of the file that was there, whole or not at all. */
  async save(): Promise<void> {
    const { cursor, atHub, sent, refused, broughtBy } = await this.read();
    const kept: z.infer<typeof Kept> = {
      cursor,
      at_hub: [...atHub],
      sent: [...sent],
      refused: [...refused.values()],
      brought_by: [...broughtBy].map(([id, person]) => [id, person]),
    };
    const beside = `${this.#path}.new`;
    await writeFile(beside, `${JSON.stringify(kept)}\n`);
    await rename(beside, this.#path);
  }

  async #load(): Promise<ReplicaMemory> {
    let text: string;
    try {
      text = await readFile(this.#path, 'utf8');
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return nothingExchanged;
      throw error;
    }
    const kept = Kept.safeParse(parsed(text));
    if (!kept.success) return nothingExchanged;
    const { cursor, at_hub, sent, refused, brought_by } = kept.data;
    return {
      cursor,
      atHub: new Set(at_hub),
      sent: new Set(sent),
      refused: new Map(refused.map((refusal) => [refusal.id, refusal])),
      broughtBy: new Map(brought_by),
    };
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
