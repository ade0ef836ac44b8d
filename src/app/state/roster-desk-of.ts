import type { Solver } from '../../core/roster/solver.ts';
import { keptWith } from './kept-with.ts';
import { RosterDesk } from './roster-desk.svelte.ts';
import type { SeasonState } from './season-state.svelte.ts';

/** Where nothing can solve programs: plans are made step by step then. */
export const stepByStep: Solver = {
  solve: () =>
    Promise.resolve({ state: 'failed', message: 'there is none on this device.', took_s: 0 }),
};

const desks = keptWith<SeasonState, RosterDesk>();

/** The roster of a season, the same each time, so that a plan under way outlives a look elsewhere. */
export function rosterDeskOf(season: SeasonState, solver: Solver): RosterDesk {
  return desks(season, '', () => new RosterDesk(season, solver));
}
