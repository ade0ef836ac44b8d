import type { SeasonEvent } from '../../core/domain/event.ts';
import type { CheckedTexts } from '../../core/log/event-log.ts';
import type { NestId } from '../../core/domain/nest.ts';
import type { Moment, Reason } from '../../core/forecast/forecast.ts';
import type { RestOfNight } from '../../core/forecast/rest-of-night.ts';
import type { FinishedEvents } from './finished-events.ts';
import type { ArchiveInShort, Learned } from './learned.ts';
import type { SentForecast } from './sent-forecast.ts';

/** What brings the worker's record up to the page's: a record itself cannot be sent. */
export interface SeasonChange {
  /** Under another key than before the record is begun afresh from `added`. */
  readonly key: number;
  /** Whether `added` is all of the season, or comes on top of what was sent under this key. */
  readonly begins: boolean;
  readonly added: readonly SeasonEvent[];
  /** Further events that come with `added`, as the log gives them (`ReadAhead`). */
  readonly texts?: CheckedTexts;
  /** IANA zone by which the page reads the record. */
  readonly zone: string;
}

export type Question =
  /** Nothing yet: the season alone, ahead of the first question. */
  | { readonly kind: 'none' }
  | { readonly kind: 'forecast'; readonly moment: Moment }
  | { readonly kind: 'why'; readonly moment: Moment; readonly nest: NestId }
  | { readonly kind: 'rest of night'; readonly moment: Moment; readonly nest: NestId }
  | {
      readonly kind: 'improve';
      readonly moment: Moment;
      /** The finished seasons to learn from; null when they have been told before. */
      readonly finished: readonly FinishedEvents[] | null;
    }
  | { readonly kind: 'learned'; readonly moment: Moment };

export type Answer =
  | { readonly kind: 'none' }
  | { readonly kind: 'forecast'; readonly forecast: SentForecast }
  | { readonly kind: 'why'; readonly reasons: readonly Reason[] }
  | { readonly kind: 'rest of night'; readonly rest: RestOfNight | null }
  | {
      readonly kind: 'improve';
      readonly improved: boolean;
      readonly archive: ArchiveInShort | null;
    }
  | { readonly kind: 'learned'; readonly learned: Learned };

/** From the page. Changes must arrive in the order in which they were sent. */
export interface Asked {
  readonly id: number;
  readonly season: SeasonChange;
  readonly question: Question;
}

/** From the worker, with the id of what was asked. */
export type Reply =
  | { readonly id: number; readonly ok: true; readonly answer: Answer }
  | { readonly id: number; readonly ok: false; readonly message: string };
