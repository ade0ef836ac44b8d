import type { EventId, SeasonEvent } from '../domain/event.ts';
import type { NestId } from '../domain/nest.ts';
import { type AmendmentsByTarget, RootFinder, isAmending } from './amendment-tree.ts';
import type { AmendingEvent, Fact, GeneralFact, NestFact, Standing } from './season-record.ts';
import { standing } from './standing.ts';

/** The events of a season sorted by what they speak of. Never changed: a step makes a new one. */
export interface Sorted {
  readonly amendments: AmendmentsByTarget;
  /** The facts of each nest, a fact whose nest was corrected under the nest it was corrected to. */
  readonly byNest: ReadonlyMap<NestId, readonly NestFact[]>;
  /** Where the facts are that are not under the nest they were written for. */
  readonly moved: ReadonlyMap<EventId, NestId>;
  readonly general: ReadonlyMap<EventId, Standing<GeneralFact>>;
  /** Amendments that speak of no fact that is here. */
  readonly adrift: readonly AmendingEvent[];
}

export const nothingSorted: Sorted = {
  amendments: new Map(),
  byNest: new Map(),
  moved: new Map(),
  general: new Map(),
  adrift: [],
};

export interface SortedIn {
  readonly sorted: Sorted;
  /** The nests that the new events speak of, from or to. */
  readonly touched: ReadonlySet<NestId>;
}

/** Sorts new events in. `events` holds all of them, the new ones included. */
export function sortIn(
  before: Sorted,
  fresh: readonly SeasonEvent[],
  events: ReadonlyMap<string, SeasonEvent>,
): SortedIn {
  const amendments = withAmendments(before.amendments, fresh.filter(isAmending));
  const freshIds = new Set<string>(fresh.map((event) => event.id));
  const { spokenOf, adrift } = factsSpokenOf(before.adrift, fresh, events);
  const general = new Map<EventId, Standing<GeneralFact>>();
  const moved = new Map(before.moved);
  const moves = new Moves();
  for (const fact of spokenOf.values()) {
    if (!('nest' in fact)) {
      general.set(fact.id, standing(fact, amendments));
      continue;
    }
    const to = standing(fact, amendments).fact.nest;
    if (!freshIds.has(fact.id)) moves.leave(moved.get(fact.id) ?? fact.nest, fact);
    moves.arrive(to, fact);
    if (to === fact.nest) moved.delete(fact.id);
    else moved.set(fact.id, to);
  }
  const sorted = {
    amendments,
    byNest: moves.made(before.byNest),
    moved,
    general: general.size === 0 ? before.general : new Map([...before.general, ...general]),
    adrift,
  };
  return { sorted, touched: moves.touched };
}

/** The facts that new events are or speak of, and the amendments that still speak of none. */
function factsSpokenOf(
  adriftBefore: readonly AmendingEvent[],
  fresh: readonly SeasonEvent[],
  events: ReadonlyMap<string, SeasonEvent>,
): { spokenOf: ReadonlyMap<string, Fact>; adrift: readonly AmendingEvent[] } {
  const spokenOf = new Map<string, Fact>();
  const adrift: AmendingEvent[] = [];
  const roots = new RootFinder(events);
  for (const event of [...adriftBefore, ...fresh]) {
    if (!isAmending(event)) {
      spokenOf.set(event.id, event);
      continue;
    }
    const root = roots.rootOf(event);
    if (root.kind === 'fact') spokenOf.set(root.fact.id, root.fact);
    else adrift.push(event);
  }
  return { spokenOf, adrift };
}

function withAmendments(
  before: AmendmentsByTarget,
  fresh: readonly AmendingEvent[],
): AmendmentsByTarget {
  if (fresh.length === 0) return before;
  const added = new Map<string, AmendingEvent[]>();
  for (const event of fresh) {
    const list = added.get(event.target);
    if (list === undefined) added.set(event.target, [event]);
    else list.push(event);
  }
  const amendments = new Map(before);
  for (const [target, list] of added) {
    amendments.set(target, [...(before.get(target) ?? []), ...list]);
  }
  return amendments;
}

/** Facts that leave one nest and arrive at another; made all at once, so that each list is copied once. */
class Moves {
  readonly touched = new Set<NestId>();
  readonly #leaving = new Map<NestId, Set<NestFact>>();
  readonly #arriving = new Map<NestId, NestFact[]>();

  leave(nest: NestId, fact: NestFact): void {
    this.touched.add(nest);
    const leaving = this.#leaving.get(nest);
    if (leaving === undefined) this.#leaving.set(nest, new Set([fact]));
    else leaving.add(fact);
  }

  arrive(nest: NestId, fact: NestFact): void {
    this.touched.add(nest);
    const arriving = this.#arriving.get(nest);
    if (arriving === undefined) this.#arriving.set(nest, [fact]);
    else arriving.push(fact);
  }

  made(before: ReadonlyMap<NestId, readonly NestFact[]>): ReadonlyMap<NestId, readonly NestFact[]> {
    if (this.touched.size === 0) return before;
    const byNest = new Map(before);
    for (const nest of this.touched) {
      const leaving = this.#leaving.get(nest);
      const stay = (byNest.get(nest) ?? []).filter((fact) => leaving?.has(fact) !== true);
      const facts = [...stay, ...(this.#arriving.get(nest) ?? [])];
      if (facts.length === 0) byNest.delete(nest);
      else byNest.set(nest, facts);
    }
    return byNest;
  }
}
