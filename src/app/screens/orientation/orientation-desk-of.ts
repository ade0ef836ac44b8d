import type { NestId } from '../../../core/domain/nest.ts';
import type { Night } from '../../../core/domain/night.ts';
import type { SeasonState } from '../../state/season-state.svelte.ts';
import { OrientationDesk } from './orientation-desk.svelte.ts';

const desks = new WeakMap<SeasonState, Map<string, OrientationDesk>>();

/** The desk of a nest: the same one every time while its season is open. */
export function orientationDeskOf(
  season: SeasonState,
  nest: NestId,
  night: Night,
  zoneSeaward_deg: number | null,
): OrientationDesk {
  const held = desks.get(season) ?? new Map<string, OrientationDesk>();
  desks.set(season, held);
  const desk = held.get(nest) ?? new OrientationDesk(season, nest, night, zoneSeaward_deg);
  held.set(nest, desk);
  return desk;
}
