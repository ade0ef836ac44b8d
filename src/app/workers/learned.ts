import type { Species } from '../../core/domain/species.ts';
import type { EveningMemory } from '../../core/forecast/evening-memory.ts';
import type { Moment } from '../../core/forecast/forecast.ts';
import type { LearnedTuning } from '../../core/forecast/learn-tuning.ts';
import type { LearnedDescription } from '../../core/forecast/learned-cues.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';

/** How much the finished seasons hold, and whether what nests share could be settled from it. */
export interface ArchiveInShort {
  readonly seasons: number;
  readonly nests: number;
  readonly converged: boolean;
}

/** What the finished seasons taught, for a screen to show beside what was assumed before. */
export interface LearnedArchive extends ArchiveInShort {
  readonly spreadFactor: number;
  /** SDs on the log scale: between seasons, and from one lay week to the next. */
  readonly seasonSd: number;
  readonly weekSd: number;
  readonly never: readonly { readonly species: Species | null; readonly share: number }[];
}

/** Everything that a programme's own record taught, as it travels between worker and page. */
export interface Learned extends LearnedDescription {
  readonly weights: LearnedTuning;
  readonly archive: LearnedArchive | null;
}

/** What was learned for an evening. */
export function learnedOn(memory: EveningMemory, record: SeasonRecord, moment: Moment): Learned {
  const { learnedTables, courses, readers, weights } = memory.cues(record, moment);
  const { archive } = memory;
  if (archive === null) return { learnedTables, courses, readers, weights, archive };
  const { spreadFactor, lasting, never } = archive;
  return {
    learnedTables,
    courses,
    readers,
    weights,
    archive: {
      ...inShort(archive),
      spreadFactor,
      seasonSd: lasting.seasonSd,
      weekSd: lasting.weekSd,
      never: [...never].map(([species, share]) => ({ species, share })),
    },
  };
}

/** What a line on a screen says of an archive. */
export function inShort({ seasons, nests, converged }: ArchiveInShort): ArchiveInShort {
  return { seasons, nests, converged };
}
