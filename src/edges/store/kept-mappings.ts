import * as z from 'zod/mini';
import { Mapping } from '../../core/exchange/mapping/mapping.ts';
import { type TextShelf, pageShelf } from './settings.ts';

const SHELF_NAME = 'firstdark mappings';
/** The oldest are forgotten first: nobody has more kinds of table than this (G). */
const KEPT = 40;

const Kept = z.array(z.tuple([z.string(), z.unknown()]));

/** How tables were matched, by their headings, the one used last at the end. */
export class KeptMappings {
  readonly #shelf: TextShelf | null;

  /** Without a shelf (site data are forbidden) nothing is remembered, and nothing else is lost. */
  constructor(shelf: TextShelf | null = pageShelf()) {
    this.#shelf = shelf;
  }

  /** One that is damaged, or of an older kind, is as if it were not there. */
  recall(headings: string): Mapping | null {
    const kept = this.#read().find(([key]) => key === headings);
    const mapping = Mapping.safeParse(kept?.[1]);
    return mapping.success ? mapping.data : null;
  }

  keep(headings: string, mapping: Mapping): void {
    const others = this.#read().filter(([key]) => key !== headings);
    this.#write([...others, [headings, mapping]]);
  }

  forget(headings: string): void {
    this.#write(this.#read().filter(([key]) => key !== headings));
  }

  #read(): readonly [string, unknown][] {
    try {
      const kept = Kept.safeParse(JSON.parse(this.#shelf?.getItem(SHELF_NAME) ?? '[]'));
      return kept.success ? kept.data : [];
    } catch {
      return [];
    }
  }

  #write(kept: readonly (readonly [string, unknown])[]): void {
    try {
      this.#shelf?.setItem(SHELF_NAME, JSON.stringify(kept.slice(-KEPT)));
    } catch {
      // A full shelf forgets how a table was matched; it will be asked again.
    }
  }
}
