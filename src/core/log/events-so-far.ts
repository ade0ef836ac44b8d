import type { SeasonEvent } from '../domain/event.ts';

/** A list of events that only grows, and where in it each id stands. */
interface Shelf {
  readonly events: SeasonEvent[];
  readonly places: Map<string, number>;
}

/**
 * The events of a season by id, as they stood at one moment. It never changes: it is the first
 * `size` events of a list that later moments go on with, so that one more event costs next to
 * nothing whatever the length of the log. It cannot be sent to a worker; send the events.
 */
export class EventsSoFar implements ReadonlyMap<string, SeasonEvent> {
  static readonly none = new EventsSoFar({ events: [], places: new Map() }, 0);
  readonly size: number;
  readonly #shelf: Shelf;

  private constructor(shelf: Shelf, size: number) {
    this.#shelf = shelf;
    this.size = size;
  }

  /** These and some more, whose ids are not among these. */
  with(fresh: readonly SeasonEvent[]): EventsSoFar {
    if (fresh.length === 0) return this;
    const isNewest = this.size > 0 && this.#shelf.events.length === this.size;
    const shelf = isNewest ? this.#shelf : this.#copy();
    for (const event of fresh) {
      shelf.places.set(event.id, shelf.events.length);
      shelf.events.push(event);
    }
    return new EventsSoFar(shelf, shelf.events.length);
  }

  /** What was added since an earlier moment; null when these do not go on from that one. */
  since(before: EventsSoFar): readonly SeasonEvent[] | null {
    if (before.#shelf !== this.#shelf || before.size > this.size) return null;
    return this.#shelf.events.slice(before.size, this.size);
  }

  get(id: string): SeasonEvent | undefined {
    const place = this.#shelf.places.get(id);
    return place !== undefined && place < this.size ? this.#shelf.events[place] : undefined;
  }

  has(id: string): boolean {
    return this.get(id) !== undefined;
  }

  *values(): MapIterator<SeasonEvent> {
    for (let place = 0; place < this.size; place++) {
      const event = this.#shelf.events[place];
      if (event !== undefined) yield event;
    }
  }

  *keys(): MapIterator<string> {
    for (const event of this.values()) yield event.id;
  }

  *entries(): MapIterator<[string, SeasonEvent]> {
    for (const event of this.values()) yield [event.id, event];
  }

  [Symbol.iterator](): MapIterator<[string, SeasonEvent]> {
    return this.entries();
  }

  forEach(
    take: (event: SeasonEvent, id: string, all: ReadonlyMap<string, SeasonEvent>) => void,
  ): void {
    for (const event of this.values()) take(event, event.id, this);
  }

  #copy(): Shelf {
    const events = this.#shelf.events.slice(0, this.size);
    return { events, places: new Map(events.map((event, place) => [event.id, place])) };
  }
}
