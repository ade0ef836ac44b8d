import { boilTracksOf } from '../domain/boil-tracks.ts';
import { formatNight } from '../domain/night.ts';
import { emergenceAt } from '../emergence/nest-emergence.ts';
import type { SeasonRecord } from '../log/season-record.ts';

/** What a list of seasons says of one. */
export interface SeasonInShort {
  readonly name: string | null;
  /** Years in which nests were laid, the first and the last; null when no lay night is known. */
  readonly years: { readonly from: number; readonly to: number } | null;
  readonly nests: number;
  /** Nests whose boil is on record. */
  readonly boils: number;
  readonly visits: number;
}

/** A season in short. */
export function seasonInShort({ programme, nests, zone }: SeasonRecord): SeasonInShort {
  const boilTracks = boilTracksOf(programme);
  const years: number[] = [];
  let [boils, visits] = [0, 0];
  for (const nest of nests.values()) {
    const { layNight } = nest.nest;
    if (layNight !== null) years.push(Number(formatNight(layNight).slice(0, 4)));
    if (emergenceAt(nest, zone, boilTracks).boil !== null) boils++;
    visits += nest.visits.length;
  }
  return {
    name: programme.name ?? null,
    years: years.length === 0 ? null : { from: Math.min(...years), to: Math.max(...years) },
    nests: nests.size,
    boils,
    visits,
  };
}
