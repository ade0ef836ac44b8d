import * as z from 'zod/mini';
import { asNight } from '../../core/domain/night.ts';
import type { Glance } from '../../core/forecast/glance.ts';
import { pageShelf, type TextShelf } from './settings.ts';

const KEY = /* @wc-ignore */ 'firstdark glance';

const Kept = z.object({
  at_ms: z.number(),
  zone: z.string(),
  programme: z.nullable(z.string()),
  nights: z.array(
    z.object({
      night: z.pipe(z.int(), z.transform(asNight)),
      nests: z.array(z.object({ nest: z.string(), zone: z.nullable(z.string()), p: z.number() })),
    }),
  ),
});

/**
 * How the odds of one's own season stood when they were last worked out, as text that can be read
 * before the first paint. Nothing is lost with it: what cannot be kept or read is done without.
 */
export class GlanceShelf {
  readonly #shelf: TextShelf | null;

  constructor(shelf: TextShelf | null = pageShelf()) {
    this.#shelf = shelf;
  }

  /** What was kept last; null when nothing was, or it is damaged. */
  read(): Glance | null {
    try {
      const read = Kept.safeParse(JSON.parse(this.#shelf?.getItem(KEY) ?? 'null'));
      return read.success ? read.data : null;
    } catch {
      return null;
    }
  }

  keep(glance: Glance): void {
    this.#set(JSON.stringify(glance));
  }

  /** For a season that is open no more. */
  forget(): void {
    this.#set('null');
  }

  #set(text: string): void {
    try {
      this.#shelf?.setItem(KEY, text);
    } catch {
      // No room for new odds: old ones would be worse than none.
      this.#shelf?.removeItem(KEY);
    }
  }
}
