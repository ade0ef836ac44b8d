import type { SeasonEvent } from '../domain/event.ts';
import type { AmendingEvent, Fact } from './season-record.ts';

/** The corrections and withdrawals in a log, by the event they speak of. */
export type AmendmentsByTarget = ReadonlyMap<string, readonly AmendingEvent[]>;

export function isAmending(event: SeasonEvent): event is AmendingEvent {
  return event.kind === 'corrected' || event.kind === 'withdrawn';
}

/** Amendments by the event each speaks of. */
export function byTarget(
  events: readonly AmendingEvent[],
): ReadonlyMap<string, readonly AmendingEvent[]> {
  const map = new Map<string, AmendingEvent[]>();
  for (const event of events) {
    const list = map.get(event.target);
    if (list === undefined) map.set(event.target, [event]);
    else list.push(event);
  }
  return map;
}

/**
 * Every amendment that speaks of an event, directly or through another amendment, each before
 * those that speak of it. Each amendment has one target, so from a fact this is a tree, never a ring.
 */
export function treeOf(id: string, amendments: AmendmentsByTarget): readonly AmendingEvent[] {
  const tree: AmendingEvent[] = [...(amendments.get(id) ?? [])];
  for (let next = 0; next < tree.length; next++) {
    const above = tree[next];
    if (above !== undefined) tree.push(...(amendments.get(above.id) ?? []));
  }
  return tree;
}

/** What an amendment speaks of in the end. */
export type Root =
  | { readonly kind: 'fact'; readonly fact: Fact }
  /** The chain ends at an event that is not here (yet). */
  | { readonly kind: 'missing' }
  /** The chain comes back on itself: these speak of each other and of nothing else. */
  | { readonly kind: 'ring' };

/** Finds roots, and remembers those of the whole chain it went along: for one set of events only. */
export class RootFinder {
  readonly #events: ReadonlyMap<string, SeasonEvent>;
  readonly #known = new Map<string, Root>();

  constructor(events: ReadonlyMap<string, SeasonEvent>) {
    this.#events = events;
  }

  rootOf(amendment: AmendingEvent): Root {
    const chain = new Set<string>();
    let root: Root | null = null;
    for (let at: AmendingEvent = amendment; root === null;) {
      const known = this.#known.get(at.id);
      if (known !== undefined) root = known;
      else if (chain.has(at.id)) root = { kind: 'ring' };
      else {
        chain.add(at.id);
        const target = this.#events.get(at.target);
        if (target === undefined) root = { kind: 'missing' };
        else if (isAmending(target)) at = target;
        else root = { kind: 'fact', fact: target };
      }
    }
    for (const id of chain) this.#known.set(id, root);
    return root;
  }
}
