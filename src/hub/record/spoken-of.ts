import * as z from 'zod/mini';
import type { Sql } from '../database/database.ts';
import { rows } from '../database/rows.ts';
import type { SentEvent } from './sent-event.ts';

const Link = z.object({ id: z.string(), kind: z.string(), target: z.nullable(z.string()) });
type Link = z.infer<typeof Link>;

/** What corrections and withdrawals speak of in the end: the kind of that fact, by the id of the amendment. */
export class SpokenOf {
  readonly #links: ReadonlyMap<string, Link>;

  private constructor(links: ReadonlyMap<string, Link>) {
    this.#links = links;
  }

  /** Follows the amendments of a batch through the batch and the record that the device can see. */
  static async in(sql: Sql, programme: string, batch: readonly SentEvent[]): Promise<SpokenOf> {
    const targets = batch.flatMap(({ target }) => (target === null ? [] : [target]));
    const links = new Map<string, Link>(batch.map((event) => [event.id, event]));
    if (targets.length > 0) {
      const found = await rows(
        sql,
        Link,
        `with recursive chain as (
           select id, kind, target from firstdark.event where programme = $1::uuid
             and id in (select value::uuid from json_array_elements_text($2::text::json))
           union
           select event.id, event.kind, event.target from chain
             join firstdark.event on event.programme = $1::uuid and event.id = chain.target)
         select id, kind, target from chain`,
        [programme, JSON.stringify(targets)],
      );
      for (const link of found) links.set(link.id, link);
    }
    return new SpokenOf(links);
  }

  /** The kind of the fact; the kind itself for a fact; null when the chain ends at what is not there. */
  kindOf({ kind, target }: Pick<SentEvent, 'kind' | 'target'>): string | null {
    const seen = new Set<string>();
    let [rootKind, next] = [kind, target];
    while (next !== null) {
      const link = this.#links.get(next);
      if (link === undefined || seen.has(next)) return null;
      seen.add(next);
      [rootKind, next] = [link.kind, link.target];
    }
    return rootKind;
  }
}
