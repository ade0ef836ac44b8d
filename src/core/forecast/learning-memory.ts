import type { Night } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import type { Moment } from './forecast.ts';
import { type LearnedCues, type ToLearn, learnCues } from './learn-cues.ts';
import { ForecastMemory } from './season-memory.ts';

/** Nights between one learning and the next, unless said. */
const everyNights = 7;

/**
 * The memory to forecast with on an evening, learned anew from what was known on it once in so many
 * nights. Evenings come in order; use one for each season.
 */
export class LearningMemory {
  #memory: ForecastMemory;
  #learned: { readonly cues: LearnedCues; readonly night: Night } | null = null;

  constructor(
    readonly toLearn: ToLearn = { tables: true, tuning: true },
    readonly finished: readonly SeasonRecord[] = [],
    readonly every_nights = everyNights,
    first: ForecastMemory = new ForecastMemory(),
  ) {
    this.#memory = first;
  }

  /** What was last learned; null before the first evening. */
  get learned(): LearnedCues | null {
    return this.#learned?.cues ?? null;
  }

  /** The memory for an evening of the season. */
  at(record: SeasonRecord, moment: Moment): ForecastMemory {
    const due = this.#learned === null || moment.night - this.#learned.night >= this.every_nights;
    if (due) {
      const records = [...this.finished, record];
      const cues = learnCues(records, moment, this.#memory, this.toLearn);
      const { tables, tuning } = cues;
      this.#memory = new ForecastMemory({ tables, tuning, archive: this.#memory.archive });
      this.#learned = { cues, night: moment.night };
    }
    return this.#memory;
  }
}
