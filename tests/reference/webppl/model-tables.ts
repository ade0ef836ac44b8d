import { Experience } from '../../../src/core/domain/visit.ts';
import { besideRows, stethoscopeRows, surfaceRows } from '../../../src/core/forecast/cue-tables.ts';
import { sightingLaws } from '../laws-of-sighting.ts';

/**
 * Everything nest-odds.wppl needs to know of the model, as plain values. The rows of the cue tables
 * are those of the code (their own tests hold them to the description); how they move, how people
 * misread and what is seen of a boil is restated here from the description. All guesses.
 */

/** Share of looks read one step off, half up and half down; at an end only the inner half remains. */
const misread: Readonly<Record<Experience, number>> = { lead: 0.06, trained: 0.12, novice: 0.22 };
/** Silences in which a novice hears something all the same. */
const noviceHears = 0.05;

function readings(share: number, heard: number): number[][] {
  const half = share / 2;
  return [
    [1 - half - heard, half + heard, 0, 0],
    [half, 1 - share, half, 0],
    [0, half, 1 - share, half],
    [0, 0, half, 1 - half],
  ];
}

const byExperience = (heard: number): Record<string, number[][]> =>
  Object.fromEntries(
    Experience.options.map((experience) => [
      experience,
      readings(misread[experience], experience === 'novice' ? heard : 0),
    ]),
  );

/** Rows by half nights left, shares redrawn a night, and what a boil leaves behind. */
export const modelTables = {
  surface: {
    rows: surfaceRows,
    redraw: { near: 0.13, far: 0.4 },
    after: { start: [0.1, 0.2, 0.35, 0.35], redraw: 0.2 },
  },
  sound: {
    rows: besideRows,
    redraw: { near: 0.6, far: 0.6 },
    after: { start: [0.97, 0.025, 0.004, 0.001], redraw: 0.2 },
  },
  stethoscope: stethoscopeRows,
  readings: { surface: byExperience(0), sound: byExperience(noviceHears) },
  sightings: sightingLaws,
};
