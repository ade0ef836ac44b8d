import { type Readings, defaultReadings } from './misreading.ts';

/**
 * What is seen and heard of a nest by nights left to its boil. Expert guesses tied to practice: no
 * publication gives them, so the app says so and each programme's own are to be learned.
 * Rows are probabilities of the states in rising order.
 */
export type KnownRows = readonly (readonly [halfNightsLeft: number, row: readonly number[]])[];

/** Surface: smooth, dip, depression, caved. 20 half nights and more: far off, or never. */
export const surfaceRows: KnownRows = [
  [0, [0.29, 0.17, 0.4, 0.14]],
  [2, [0.505, 0.175, 0.285, 0.035]],
  [4, [0.67, 0.135, 0.18, 0.015]],
  [6, [0.775, 0.1, 0.115, 0.01]],
  [8, [0.845, 0.075, 0.075, 0.005]],
  [10, [0.888, 0.057, 0.052, 0.003]],
  [12, [0.917, 0.043, 0.037, 0.003]],
  [14, [0.936, 0.036, 0.026, 0.002]],
  [16, [0.95, 0.03, 0.018, 0.002]],
  [18, [0.96, 0.025, 0.013, 0.002]],
  [20, [0.965, 0.024, 0.01, 0.001]],
];

/** Sound with a microphone head or a probe beside the nest: quiet, occasional, steady, waterfall. */
export const besideRows: KnownRows = [
  [0, [0.18, 0.2, 0.34, 0.28]],
  [2, [0.24, 0.28, 0.35, 0.13]],
  [4, [0.3, 0.32, 0.32, 0.06]],
  [6, [0.38, 0.34, 0.25, 0.03]],
  [8, [0.48, 0.33, 0.175, 0.015]],
  [10, [0.6, 0.28, 0.11, 0.01]],
  [12, [0.7, 0.23, 0.065, 0.005]],
  [14, [0.78, 0.18, 0.037, 0.003]],
  [16, [0.84, 0.135, 0.023, 0.002]],
  [18, [0.88, 0.1, 0.018, 0.002]],
  [20, [0.92, 0.07, 0.009, 0.001]],
];

/** Sound with a stethoscope on the surface, ten minutes after dark. */
export const stethoscopeRows: KnownRows = [
  [0, [0.45, 0.25, 0.22, 0.08]],
  [2, [0.62, 0.22, 0.13, 0.03]],
  [4, [0.72, 0.18, 0.09, 0.01]],
  [6, [0.79, 0.14, 0.06, 0.01]],
  [8, [0.85, 0.11, 0.035, 0.005]],
  [12, [0.92, 0.065, 0.013, 0.002]],
  [16, [0.955, 0.038, 0.006, 0.001]],
  [20, [0.965, 0.03, 0.004, 0.001]],
];

/** How one cue comes, stays and goes. */
export interface CueTable {
  /** Chances of its states by half nights left; the last row holds for all that is farther, and never. */
  readonly rows: KnownRows;
  /**
   * Share redrawn a night: within three nights of the boil, and ten nights and more from it; in
   * between at a steady ratio.
   */
  readonly redraw: { readonly near: number; readonly far: number };
  /** Chances of its states on the dawn after the boil, and the share a night that goes back to far off. */
  readonly after: { readonly start: readonly number[]; readonly redraw: number };
}

/** Everything that the chains of surface and sound are built from. */
export interface CueTables {
  readonly surface: CueTable;
  /** What is there to be heard: by a microphone head or a probe beside the nest. */
  readonly sound: CueTable;
  /** What a stethoscope on the surface hears, as `CueTable.rows`. */
  readonly stethoscope: KnownRows;
  readonly surfaceReadings: Readings;
  readonly soundReadings: Readings;
}

/** What the sand goes back to after the boil, as a share a night (guess). */
const afterRedraw = 0.2;

/**
 * The tables before anything is learned. Surfaces are redrawn at 0.4 a night far from hatching and
 * 0.13 within three nights (a true dip stays about a week); sound has a short memory (guesses).
 */
export const defaultCueTables: CueTables = {
  surface: {
    rows: surfaceRows,
    redraw: { near: 0.13, far: 0.4 },
    after: { start: [0.1, 0.2, 0.35, 0.35], redraw: afterRedraw },
  },
  sound: {
    rows: besideRows,
    redraw: { near: 0.6, far: 0.6 },
    after: { start: [0.97, 0.025, 0.004, 0.001], redraw: afterRedraw },
  },
  stethoscope: stethoscopeRows,
  surfaceReadings: defaultReadings('surface'),
  soundReadings: defaultReadings('sound'),
};
