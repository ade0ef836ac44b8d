import { monotoneRows } from '../inference/monotone-rows.ts';
import type { CueTally, SeasonTally } from './cue-tally.ts';
import { type CueTable, type CueTables, type KnownRows, defaultCueTables } from './cue-tables.ts';
import { learnedReadings } from './reading-tally.ts';
import { type RowTally, learnedRow, learnedShare, priorNotes } from './row-tally.ts';

/** Tables as counts have it, each row worth its default and 20 notes to begin with. */
export function tablesFrom(tally: SeasonTally): CueTables {
  const { surface, sound, stethoscope } = defaultCueTables;
  return {
    surface: tableFrom(surface, tally.surface),
    sound: tableFrom(sound, tally.sound),
    stethoscope: rowsFrom(stethoscope, tally.stethoscope),
    surfaceReadings: learnedReadings(defaultCueTables.surfaceReadings, tally.surface.readings),
    soundReadings: learnedReadings(defaultCueTables.soundReadings, tally.sound.readings),
  };
}

function tableFrom(standard: CueTable, tally: CueTally): CueTable {
  const { redraws, moves } = tally;
  return {
    rows: rowsFrom(standard.rows, tally.rows),
    redraw: {
      near: redrawFrom(standard.redraw.near, redraws.near, moves.near),
      far: redrawFrom(standard.redraw.far, redraws.far, moves.far),
    },
    after: {
      start: learnedRow(standard.after.start, tally.afterStart),
      redraw: redrawFrom(standard.after.redraw, redraws.after, moves.after),
    },
  };
}

/** Rows kept in line: none far from the boil higher than a nearer one. */
function rowsFrom(standard: KnownRows, { counts, weights, states }: RowTally): KnownRows {
  const rows = standard.map(([, row], index) =>
    learnedRow(row, counts.subarray(index * states, (index + 1) * states)),
  );
  const inLine = monotoneRows(
    rows,
    Array.from(weights, (weight) => priorNotes + weight),
  );
  return standard.map(([left], index) => [left, inLine[index]!] as const);
}

/** A share redrawn a night, from expected redraws in half nights. */
function redrawFrom(perNight: number, redraws: number, moves_halves: number): number {
  if (moves_halves === 0) return perNight;
  const half = learnedShare(1 - Math.sqrt(1 - perNight), redraws, moves_halves);
  return 1 - (1 - Math.min(0.999, Math.max(0.001, half))) ** 2;
}
