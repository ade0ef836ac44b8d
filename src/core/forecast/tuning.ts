/** How much weight the odds give to each kind of cue, and how widely nests of one beach scatter. */
export interface Tuning {
  /** Power to which the likelihood of all surface notes of a nest is raised; of all sound notes. */
  readonly surfacePower: number;
  readonly soundPower: number;
  /** Factor on the spread of incubation between nests of one beach and season. */
  readonly spreadFactor: number;
}

/**
 * Cues agree more than a chain says (one crab, one hopeful observer), so the raw product is
 * over-confident: powers below 1 (guess, learned from the record). The spread is the published one.
 */
export const defaultTuning: Tuning = { surfacePower: 0.6, soundPower: 0.6, spreadFactor: 1 };
