import type { Random } from '../../src/core/numerics/random.ts';

/** What an importer made of an input. */
export type Outcome = 'refused' | 'in part' | 'taken';

/** One way by which something from outside comes in. */
export interface Importer {
  readonly name: string;
  /** A good input, or one that is damaged from the start in a way of its own. */
  readonly make: (luck: Random) => Uint8Array;
  readonly isText: boolean;
  /**
   * Reads an input. Throws `Broken` when a row was lost without a word, or something was taken that
   * the input does not say; whatever else it throws is a crash.
   */
  readonly read: (bytes: Uint8Array, luck: Random) => Outcome | Promise<Outcome>;
  /** Lets go of what was opened. */
  readonly close?: () => Promise<void>;
}

/** A promise of the importers that was not kept. */
export class Broken extends Error {}

export function promise(isKept: boolean, otherwise: () => string): asserts isKept {
  if (!isKept) throw new Broken(otherwise());
}
