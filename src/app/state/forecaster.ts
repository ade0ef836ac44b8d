import type { SeasonEvent } from '../../core/domain/event.ts';
import type { CheckedTexts } from '../../core/log/event-log.ts';
import type { NestId } from '../../core/domain/nest.ts';
import type { Moment, Reason, SeasonForecast } from '../../core/forecast/forecast.ts';
import type { RestOfNight } from '../../core/forecast/rest-of-night.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import type { ArchiveInShort, Learned } from '../workers/learned.ts';

export type { Learned } from '../workers/learned.ts';

/** Works out the odds, here or in a worker. A failure of the calculation rejects. */
export interface Forecaster {
  /**
   * Has what is asked first answered sooner: these texts (`ReadAhead`) are of events that the record
   * will be of, known before they are read. They are given away.
   */
  beginAhead?(texts: CheckedTexts, zone: string): void;
  /**
   * Likewise once they are read and the record is still being put together: `told` are the events of
   * the texts that were told ahead, `more` all others.
   */
  begin?(told: readonly SeasonEvent[], more: readonly SeasonEvent[], zone: string): void;
  forecast(record: SeasonRecord, moment: Moment): Promise<SeasonForecast>;
  why(record: SeasonRecord, moment: Moment, nest: NestId): Promise<readonly Reason[]>;
  restOfNight(record: SeasonRecord, moment: Moment, nest: NestId): Promise<RestOfNight | null>;
  /**
   * Works on better odds for the evening, such as those by cues learned from the record; true when
   * asking again gives them, false when what was given is the best there is.
   */
  improve?(record: SeasonRecord, moment: Moment): Promise<boolean>;
  /** What finished seasons taught in short, once `improve` has learned from them; null = nothing. */
  readonly archive?: ArchiveInShort | null;
  /** What the record taught of cues, observers and spread, beside what was assumed before. */
  learned?(record: SeasonRecord, moment: Moment): Promise<Learned>;
  /** Nothing that is asked or still unanswered is answered after this. */
  close?(): void;
}
