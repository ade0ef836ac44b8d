import type { EventId, EventOf, SeasonEvent, TableName } from '../domain/event.ts';
import type { Nest, NestId } from '../domain/nest.ts';
import type { Programme } from '../domain/programme.ts';
import type { Visit } from '../domain/visit.ts';

/** The kinds of event that change what another one says, without editing it. */
export type AmendingEvent = EventOf<'corrected'> | EventOf<'withdrawn'>;
/** The kinds of event that record a fact, and so can be corrected and withdrawn. */
export type Fact = Exclude<SeasonEvent, AmendingEvent>;
export type FactOf<Kind extends Fact['kind']> = Extract<Fact, { kind: Kind }>;
/** The facts that speak of one nest. */
export type NestFact = Extract<Fact, { nest: NestId }>;
/** The facts that speak of the season as a whole. */
export type GeneralFact = Exclude<Fact, NestFact>;

/** A fact as it stands after every correction that came to it, with those corrections. */
export interface Standing<F extends Fact = Fact> {
  readonly fact: F;
  readonly original: F;
  /**
   * Whatever speaks of the fact, directly or through another amendment, in the order it was
   * written; what does not hold is included, so that the history is whole.
   */
  readonly amendments: readonly Amendment[];
  readonly withdrawn: boolean;
}

export interface Amendment {
  readonly event: AmendingEvent;
  /** Whether it holds: not withdrawn itself, and its values could be read. */
  readonly holds: boolean;
  /** Why it does not hold; missing when it does. */
  readonly fallen?: Fallen;
  /** Fields it names that such a fact does not have; missing when there are none. */
  readonly ignored?: readonly string[];
}

/** Why an amendment does not hold. */
export type Fallen =
  | { readonly kind: 'withdrawn' }
  | { readonly kind: 'under one that fell' }
  | { readonly kind: 'corrects a withdrawal' }
  | { readonly kind: 'unreadable'; readonly message: string };

/** Everything on record about one nest. Its identity changes only when something about the nest did. */
export interface NestRecord {
  readonly nest: Nest;
  readonly registration: Standing<FactOf<'nest-registered'>>;
  /** In order of time, then id. */
  readonly visits: readonly Visit[];
  /** Every note that speaks of the nest, withdrawn ones too, by event id. */
  readonly notes: ReadonlyMap<EventId, Standing<FactOf<'visit-noted'>>>;
  readonly orientations: readonly Standing<FactOf<'orientation-recorded'>>[];
  readonly inventories: readonly Standing<FactOf<'inventory-recorded'>>[];
}

/** Something in the log that could not be used, in words for the person who keeps the record. */
export interface RecordProblem {
  readonly event: string;
  readonly message: string;
}

/** A season as it follows from the log: the same for any order of the same events. */
export interface SeasonRecord {
  readonly programme: Programme;
  /** IANA name by which nights and times without offset are read. */
  readonly zone: string;
  /** In order of their names. */
  readonly nests: ReadonlyMap<NestId, NestRecord>;
  readonly conditions: readonly Standing<FactOf<'conditions-noted'>>[];
  readonly volunteers: readonly Standing<FactOf<'volunteer-enrolled'>>[];
  readonly availability: readonly Standing<FactOf<'availability-given'>>[];
  /** One a person. */
  readonly weeklyPatterns: readonly Standing<FactOf<'weekly-pattern-given'>>[];
  /** One a pair of nests. */
  readonly sights: readonly Standing<FactOf<'sight-judged'>>[];
  readonly pins: readonly Standing<FactOf<'pinned'>>[];
  /** One a night: who sits where, as it was last given out. */
  readonly published: readonly Standing<FactOf<'night-published'>>[];
  readonly layouts: ReadonlyMap<TableName, EventOf<'table-laid-out'>>;
  /** Visits, orientations and inventories of nests that nobody registered (yet). */
  readonly unplaced: readonly Standing[];
  /** By id, in no promised order. */
  readonly events: ReadonlyMap<string, SeasonEvent>;
  readonly problems: readonly RecordProblem[];
}
