import type { NestId } from '../src/core/domain/nest.ts';
import { type Night, asNight, atWallClock } from '../src/core/domain/night.ts';
import type { Moment } from '../src/core/forecast/forecast.ts';
import type { NestRecord, SeasonRecord } from '../src/core/log/season-record.ts';
import { benchSeason } from './seasons.ts';

/** Nests that are drawn; a longer coast repeats them under other names, sharing their notes. */
const drawn = 1_000;

/** A season of any number of nests, each with its last notes up to an evening in its midst. */
export interface Coast {
  readonly record: SeasonRecord;
  readonly moment: Moment;
  readonly notes: number;
}

/** Draws a coast of so many nests with at most so many notes each. */
export function coastOf(nests: number, notesPerNest: number): Coast {
  const { record } = benchSeason({ nests: Math.min(nests, drawn), seed: 4 });
  const night = middleNight(record);
  const moment = { night, at_ms: atWallClock(night, 20 * 60, record.zone) };
  const originals = [...record.nests.values()].map((nest) => {
    const known = nest.visits.filter(({ at_ms }) => at_ms <= moment.at_ms);
    return { ...nest, visits: known.slice(-notesPerNest) };
  });
  const all = new Map<NestId, NestRecord>();
  let notes = 0;
  for (let index = 0; index < nests; index++) {
    const original = originals[index % originals.length];
    if (original === undefined) break;
    const id = `${original.nest.id}-${Math.floor(index / originals.length)}` as NestId;
    all.set(id, { ...original, nest: { ...original.nest, id } });
    notes += original.visits.length;
  }
  return { record: { ...record, nests: all }, moment, notes };
}

/** A night on which a good part of the season is due. */
function middleNight({ nests }: SeasonRecord): Night {
  const laid = [...nests.values()].flatMap(({ nest }) => nest.layNight ?? []);
  laid.sort((a, b) => a - b);
  return asNight((laid[Math.floor(laid.length / 2)] ?? 0) + 56);
}
