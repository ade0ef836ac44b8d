import type { NestId } from '../../../core/domain/nest.ts';
import type { Night } from '../../../core/domain/night.ts';
import { keptWith } from '../../state/kept-with.ts';
import type { SeasonState } from '../../state/season-state.svelte.ts';
import { OrientationDesk } from './orientation-desk.svelte.ts';

const desks = keptWith<SeasonState, OrientationDesk>();

/** The desk of a nest: the same one every time while its season is open. */
export function orientationDeskOf(
  season: SeasonState,
  nest: NestId,
  night: Night,
  zoneSeaward_deg: number | null,
): OrientationDesk {
  return desks(season, nest, () => new OrientationDesk(season, nest, night, zoneSeaward_deg));
}
