import type { EventId, SeasonEvent } from '../../src/core/domain/event.ts';
import { formatInstant, parseInstant } from '../../src/core/domain/instant.ts';
import { NestId } from '../../src/core/domain/nest.ts';
import type { VisitDetails } from '../../src/core/domain/visit.ts';
import { type EventBody, type KnownEvent, writeEvent } from '../../src/core/log/write-event.ts';

const START_MS = parseInstant('2026-07-20T20:00-04:00') ?? 0;

/** Writes events one after another, a minute apart, each with an id of its own. */
export class Pen {
  #count = 0;
  readonly author: string;
  readonly #seed: number;

  constructor(author = 'Ada Invented', seed = 1) {
    this.author = author;
    this.#seed = seed;
  }

  nestId(name: string): NestId {
    return NestId.parse(name);
  }

  logged(body: EventBody, at?: string): KnownEvent {
    this.#count += 1;
    const random = new Uint8Array(16);
    new DataView(random.buffer).setUint32(12, this.#count);
    random[11] = this.#seed;
    const now_ms = START_MS + this.#count * 60_000;
    const at_ms = at === undefined ? now_ms : (parseInstant(at) ?? Number.NaN);
    const zone = 'America/New_York';
    const { author } = this;
    return writeEvent(body, { now_ms, at_ms, random, author, device: 'device-1', zone });
  }

  write(body: EventBody, at?: string): SeasonEvent {
    return this.logged(body, at).event;
  }

  nest(name: string, details: object = {}): SeasonEvent {
    return this.write({ kind: 'nest-registered', nest: this.nestId(name), details });
  }

  visit(name: string, details: VisitDetails = {}, at?: string): SeasonEvent {
    return this.write({ kind: 'visit-noted', nest: this.nestId(name), details }, at);
  }

  correct(target: EventId, changes: Record<string, unknown>): SeasonEvent {
    return this.write({ kind: 'corrected', target, changes });
  }

  withdraw(target: EventId): SeasonEvent {
    return this.write({ kind: 'withdrawn', target });
  }

  zone(time_zone: string): SeasonEvent {
    return this.write({ kind: 'programme-described', programme: { time_zone } });
  }
}

/** The same event with some of its envelope changed. */
export function restamped(event: SeasonEvent, written_ms: number): SeasonEvent {
  return { ...event, written: formatInstant(written_ms, 'UTC') };
}
