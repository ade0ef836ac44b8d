import type { LoggedEvent } from '../log/event-log.ts';

/** Why a hub did not do what was asked, with a message that says what to do. */
export interface HubProblem {
  readonly kind:
    /** No reception, or the hub does not answer: try again later. */
    | 'out of reach'
    /** It asks to be left alone for a while. */
    | 'busy'
    /** It no longer knows the place in its record up to which this device has read. */
    | 'cursor unknown'
    /** The batch or an event in it is too large. */
    | 'too large'
    /** This device's key does not open it (any more). */
    | 'shut out'
    /** It answered what this version does not understand, or refused for another reason. */
    | 'failed';
  readonly message: string;
  /** Seconds it asked to wait, where it said so. */
  readonly wait_s?: number;
}

export type HubAnswer<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: HubProblem };

/** Events on their way to the hub, as they lie in the log. */
export interface Batch {
  /** Those that this device wrote under its own name. */
  readonly events: readonly unknown[];
  /** Those that it brings for others: imported, handed over, or written before it joined. */
  readonly carried: readonly unknown[];
}

/** One event that the hub did not take. */
export interface Refusal {
  readonly id: string;
  readonly reason: string;
  /** Whether the same event may be taken later as it is. */
  readonly again: boolean;
}

/** What became of a batch: every id of it is in one of the three. */
export interface Receipt {
  /** New to the hub, and on its storage. */
  readonly kept: readonly string[];
  /** There already. */
  readonly known: readonly string[];
  readonly refused: readonly Refusal[];
}

/** One event as the hub gives it. */
export interface Received {
  readonly logged: LoggedEvent;
  /** Who handed it to the hub, where that was not the device that wrote it. */
  readonly broughtBy: string | null;
}

/** A stretch of the hub's record. */
export interface Page {
  readonly events: readonly Received[];
  /** Where the next page begins; opaque. */
  readonly cursor: string;
  readonly more: boolean;
  /** How many events are left after this page. */
  readonly behind: number;
}

/** What a device asks of a hub. The core states what it needs; `edges/hub` speaks HTTPS. */
export interface Hub {
  /** Hands events over; doing so again does no harm. */
  send(batch: Batch): Promise<HubAnswer<Receipt>>;
  /** What the hub has after a cursor; null = from the beginning. */
  after(cursor: string | null): Promise<HubAnswer<Page>>;
}

/** As whom a device is known to its hub. */
export interface Identity {
  readonly person: string;
  readonly device: string;
}
