import type { NestId } from '../../../core/domain/nest.ts';
import type { Emergence } from '../../../core/domain/visit.ts';
import type { SeasonState } from '../../state/season-state.svelte.ts';
import { BoilDesk } from './boil-desk.svelte.ts';

const desks = new WeakMap<SeasonState, Map<string, BoilDesk>>();

/** The desk of a person at a nest: the same one every time while its season is open. */
export function boilDeskOf(
  season: SeasonState,
  nest: NestId,
  author: string | null,
  emergence: Emergence,
): BoilDesk {
  const held = desks.get(season) ?? new Map<string, BoilDesk>();
  desks.set(season, held);
  const key = `${nest} ${author ?? ''}`;
  const desk = held.get(key) ?? new BoilDesk(season, nest, author, emergence);
  held.set(key, desk);
  return desk;
}
