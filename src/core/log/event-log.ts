import type { SeasonEvent } from '../domain/event.ts';

/**
 * An event as it lies in a log. `known` has been read and lifted to today's shape, with `raw` where
 * what lies there is older or says more than this version reads; `foreign` was written by a newer
 * version or is damaged. Both are kept and passed on as they lie there.
 */
export type LoggedEvent =
  | { readonly state: 'known'; readonly event: SeasonEvent; readonly raw?: unknown }
  | { readonly state: 'foreign'; readonly id: string; readonly raw: unknown; readonly why: string };

/** Why a log could not do what was asked, with a message that says what to do. */
export interface LogProblem {
  readonly kind: 'full' | 'blocked' | 'outdated' | 'unreadable' | 'closed' | 'failed';
  readonly message: string;
}

export type Appended =
  | { readonly ok: true; /** How many were new to the log. */ readonly added: number }
  | { readonly ok: false; readonly problem: LogProblem };

export type Read =
  | {
      readonly ok: true;
      readonly events: readonly LoggedEvent[];
      /** How many of them, from the first on, were told ahead; undefined = none. */
      readonly told?: number;
    }
  | { readonly ok: false; readonly problem: LogProblem };

/** Events that were checked, as texts (`checkedText`) in UTF-8. */
export type CheckedTexts = readonly Uint8Array<ArrayBuffer>[];

/** Is given the texts for good. */
export type ReadAhead = (texts: CheckedTexts) => void;

/**
 * An append-only log of events. The core states what it needs; every implementation passes
 * `tests/suites/event-log-suite.ts`.
 */
export interface EventLog {
  /**
   * Adds the events whose ids are not there yet, all or none. When it says `ok` they are on
   * stable storage: closing the page or cutting the power loses none of them.
   */
  append(events: readonly LoggedEvent[]): Promise<Appended>;
  /**
   * Everything in the log, in no promised order. A log that keeps events it has checked as texts tells
   * them `ahead`, before it reads them.
   */
  read(ahead?: ReadAhead): Promise<Read>;
  /** Calls back when another holder of the same log has added to it; gives the way to stop. */
  watch(changed: () => void): () => void;
  close(): Promise<void>;
}

/** The events of a log that this version can read. */
export function knownOf(logged: readonly LoggedEvent[]): readonly SeasonEvent[] {
  return logged.flatMap((entry) => (entry.state === 'known' ? [entry.event] : []));
}

/** The id of an event, known or foreign. */
export function idOf(logged: LoggedEvent): string {
  return logged.state === 'known' ? logged.event.id : logged.id;
}
