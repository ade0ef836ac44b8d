import type { NestId } from '../../core/domain/nest.ts';
import { EveningMemory } from '../../core/forecast/evening-memory.ts';
import type { Moment, Reason, SeasonForecast } from '../../core/forecast/forecast.ts';
import { type RestOfNight, restOfNight } from '../../core/forecast/rest-of-night.ts';
import type { ForecastMemory } from '../../core/forecast/season-memory.ts';
import { forecastSeason } from '../../core/forecast/tonight.ts';
import { whyTonight } from '../../core/forecast/why.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { type FinishedEvents, finishedRecords } from './finished-events.ts';
import { type ArchiveInShort, type Learned, inShort, learnedOn } from './learned.ts';

/**
 * Works out the odds of one season: by the default cue tables until `improve` has learned those of
 * the evening from the record and the finished seasons, by the learned ones from then on. Each call takes as long as it takes.
 */
export class Reckoner {
  #evening = new EveningMemory();

  forecast(record: SeasonRecord, moment: Moment): SeasonForecast {
    return forecastSeason(record, moment, this.#memory(record, moment));
  }

  why(record: SeasonRecord, moment: Moment, nest: NestId): readonly Reason[] {
    return whyTonight(record, moment, nest, this.#memory(record, moment));
  }

  restOfNight(record: SeasonRecord, moment: Moment, nest: NestId): RestOfNight | null {
    return restOfNight(record, moment, nest, this.#memory(record, moment));
  }

  /**
   * Learns for the evening; false when that had been done and nothing is to be gained. `finished`
   * holds from then on; null = as before.
   */
  improve(
    record: SeasonRecord,
    moment: Moment,
    finished: readonly FinishedEvents[] | null,
  ): boolean {
    const taught = this.#evening.archive !== null;
    if (finished !== null && (taught || finished.length > 0)) {
      this.#evening = new EveningMemory(finishedRecords(finished));
    }
    if (this.#evening.isReady(record, moment)) return false;
    this.#evening.on(record, moment);
    return true;
  }

  /** What the finished seasons taught in short; null before any did. */
  get archive(): ArchiveInShort | null {
    const { archive } = this.#evening;
    return archive === null ? null : inShort(archive);
  }

  /** What was learned for the evening, beside what was assumed before. */
  learned(record: SeasonRecord, moment: Moment): Learned {
    return learnedOn(this.#evening, record, moment);
  }

  #memory(record: SeasonRecord, moment: Moment): ForecastMemory {
    const evening = this.#evening;
    return evening.isReady(record, moment) ? evening.on(record, moment) : evening.plain;
  }
}
