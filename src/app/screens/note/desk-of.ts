import type { DeviceSettings } from '../../state/device-settings.svelte.ts';
import { keptWith } from '../../state/kept-with.ts';
import type { SeasonState, Written } from '../../state/season-state.svelte.ts';
import { type Kept, NoteDesk, type NoteKeeper } from './note-desk.svelte.ts';

const desks = keptWith<SeasonState, NoteDesk>();

/** The desk of a season: the same one every time, so that what was not saved outlives the screen. */
export function deskOf(season: SeasonState, settings: DeviceSettings): NoteDesk {
  return desks(season, '', () => newDesk(season, settings));
}

function newDesk(season: SeasonState, settings: DeviceSettings): NoteDesk {
  const observer = () => ({ name: settings.now.author, experience: settings.now.experience });
  const desk = new NoteDesk(keeperOf(season), season.clock, observer);
  desk.add({ instrument: settings.now.instrument });
  return desk;
}

function keeperOf(season: SeasonState): NoteKeeper {
  return {
    zone: () => season.zone,
    note: async (nest, details, at_ms) => keptAs(await season.note(nest, details, at_ms)),
    correct: async (target, changes) => keptAs(await season.correct(target, changes)),
    withdraw: async (target) => {
      const written = await season.withdraw(target, 'undone');
      if (written.ok && season.undoable?.id === target) season.forgetUndo();
      return keptAs(written);
    },
  };
}

function keptAs(written: Written): Kept {
  return written.ok ? written : { ok: false, message: written.problem.message };
}
