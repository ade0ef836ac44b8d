import { type Night, nightBounds } from '../domain/night.ts';
import type { SeasonRecord } from '../log/season-record.ts';
import { type Archive, learnArchive } from './archive.ts';
import type { Moment } from './forecast.ts';
import { type LearnedCues, learnCues } from './learn-cues.ts';
import { ForecastMemory } from './season-memory.ts';

/** Nests whose notes the cues are learned from at most: those with the most notes. */
const mostNests = 250;

/**
 * The memory to forecast a season with on any evening. Earlier seasons teach what nests share; the
 * cue tables, how observers read them and the weight of cues are learned anew for each night from
 * what was known at its noon, so that a note of the evening itself costs no learning.
 */
export class EveningMemory {
  readonly archive: Archive | null;
  readonly #plain: ForecastMemory;
  readonly #finished: readonly SeasonRecord[];
  #learned: {
    readonly key: string;
    readonly memory: ForecastMemory;
    readonly cues: LearnedCues;
  } | null = null;

  constructor(finished: readonly SeasonRecord[] = []) {
    this.archive =
      finished.length === 0 ? null : learnArchive(finished, () => new ForecastMemory());
    this.#plain = new ForecastMemory({ archive: this.archive });
    this.#finished = finished.map(withMostNotes);
  }

  /** The memory before anything is learned of cues: for a first answer while `on` is at work. */
  get plain(): ForecastMemory {
    return this.#plain;
  }

  /** Whether `on` has its answer ready for this evening of the record. */
  isReady(record: SeasonRecord, moment: Moment): boolean {
    return this.#learned?.key === keyOf(record, moment.night);
  }

  /** The memory for an evening, and what was learned for it. */
  on(record: SeasonRecord, moment: Moment): ForecastMemory {
    return this.#learn(record, moment.night).memory;
  }

  /** What the record taught of cues and observers, as known at the noon before an evening. */
  cues(record: SeasonRecord, moment: Moment): LearnedCues {
    return this.#learn(record, moment.night).cues;
  }

  #learn(record: SeasonRecord, night: Night) {
    const key = keyOf(record, night);
    if (this.#learned?.key !== key) {
      const until = { night, at_ms: nightBounds(night, record.zone).from_ms };
      const from = withMostNotes(record);
      const memory = from === record ? this.#plain : new ForecastMemory({ archive: this.archive });
      const cues = learnCues([...this.#finished, from], until, memory);
      const { tables, tuning } = cues;
      const learned = new ForecastMemory({ tables, tuning, archive: this.archive });
      this.#learned = { key, memory: learned, cues };
    }
    return this.#learned;
  }
}

/** Tells evenings and records apart that teach different things: the notes known at noon. */
function keyOf(record: SeasonRecord, night: Night): string {
  const noon_ms = nightBounds(night, record.zone).from_ms;
  let known = 0;
  for (const { visits } of record.nests.values()) {
    for (const visit of visits) if (visit.at_ms <= noon_ms) known++;
  }
  return `${night}|${record.zone}|${record.nests.size}|${known}`;
}

/** The season with only its most noted nests, when there are very many. */
function withMostNotes(record: SeasonRecord): SeasonRecord {
  if (record.nests.size <= mostNests) return record;
  const nests = [...record.nests]
    .sort(([a, one], [b, other]) => other.visits.length - one.visits.length || (a < b ? -1 : 1))
    .slice(0, mostNests);
  return { ...record, nests: new Map(nests) };
}
