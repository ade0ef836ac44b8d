import type { NestId } from '../../../core/domain/nest.ts';
import type { Emergence } from '../../../core/domain/visit.ts';
import { keptWith } from '../../state/kept-with.ts';
import type { SeasonState } from '../../state/season-state.svelte.ts';
import { BoilDesk } from './boil-desk.svelte.ts';

const desks = keptWith<SeasonState, BoilDesk>();

/** The desk of a person at a nest: the same one every time while its season is open. */
export function boilDeskOf(
  season: SeasonState,
  nest: NestId,
  author: string | null,
  emergence: Emergence,
): BoilDesk {
  const make = (): BoilDesk => new BoilDesk(season, nest, author, emergence);
  return desks(season, `${nest} ${author ?? ''}`, make);
}
