import {
  type Experience,
  type Instrument,
  Sound,
  Surface,
} from '../../../src/core/domain/visit.ts';
import { type SeasonBuilder, layNightBefore } from '../../builders/season.ts';
import { missedAtDawn, shareOfBoils } from '../laws-of-sighting.ts';

/** The evening that is asked about in every case. */
export const today = '2026-07-20';

/** One note of a nest, so many nights ago: of the evening at 21:00, or of the dawn that ends the night. */
export interface Noted {
  readonly back: number;
  readonly dawn?: true;
  readonly experience?: Experience;
  readonly surface?: Surface;
  readonly sound?: Sound;
  readonly instrument?: Instrument;
  readonly wind?: 'calm' | 'breeze' | 'strong';
  readonly tracks?: number;
  /** Hatchlings counted in a watch from 20:30 to 23:30; sunset is at 20:00. */
  readonly emerged?: number;
}

/** A loggerhead of this age, clutch not counted, and all that was noted of it. */
export interface NestCase {
  readonly age: number;
  readonly notes: readonly Noted[];
}

/** Adds the nest and its notes to a season, as the program reads them. */
export function addNest(season: SeasonBuilder, id: string, { age, notes }: NestCase): void {
  season.nest(id, { lay_night: layNightBefore(today, age) });
  for (const { back, dawn, emerged, ...details } of notes) {
    const date = layNightBefore(today, back);
    if (emerged !== undefined) season.watch(id, date, '20:30', '23:30', emerged);
    else season.visit(id, date, { ...details, kind: dawn ? 'morning' : 'evening' });
  }
}

/** The same notes as nest-odds.wppl takes them: half nights from this evening, readings by number. */
export function notesFor(
  { notes }: NestCase,
  power: { readonly surface: number; readonly sound: number },
) {
  const signs = notes.flatMap(({ back, dawn, experience = 'trained', ...note }) => {
    const common = { half: -2 * back + (dawn ? 1 : 0), experience };
    const { instrument = null, wind } = note;
    return [
      ...(note.surface === undefined
        ? []
        : [{ ...common, channel: 'surface', reading: Surface.options.indexOf(note.surface) }]),
      ...(note.sound === undefined
        ? []
        : [
            {
              ...common,
              channel: 'sound',
              reading: Sound.options.indexOf(note.sound),
              instrument,
              windy: wind === 'strong',
            },
          ]),
    ];
  });
  signs.sort((a, b) => a.half - b.half);
  const looks = notes.flatMap(({ back, tracks, emerged, wind }) => [
    ...(emerged === undefined ? [] : [watchLook(-back, emerged)]),
    ...(tracks === undefined
      ? []
      : [
          {
            kind: 'dawn',
            night: -back,
            count: classOf(tracks),
            missed: missedAtDawn(wind ?? null, null, 70),
          },
        ]),
  ]);
  return { notes: signs, looks, power };
}

const watchLook = (night: number, emerged: number) => ({
  kind: 'watch',
  night,
  count: classOf(emerged),
  watched: shareOfBoils(0.5, 3.5, false),
});

/** None, few (1-3), some (4-9), many. */
function classOf(count: number): number {
  return count === 0 ? 0 : count <= 3 ? 1 : count <= 9 ? 2 : 3;
}
