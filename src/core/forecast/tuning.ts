/** How much weight the odds give to each kind of cue, how widely nests of one beach scatter, and how many never come up. */
export interface Tuning {
  /** Power to which the likelihood of all surface notes of a nest is raised; of all sound notes. */
  readonly surfacePower: number;
  readonly soundPower: number;
  /** Factor on the spread of incubation between nests of one beach and season. */
  readonly spreadFactor: number;
  /** Factor on the prior odds that a nest never comes up. */
  readonly neverOdds: number;
  /**
   * Factor on the odds that a nest which comes up at all and has not yet, comes up on the next night
   * rather than later: above 1 where nests have come up sooner than was said of them.
   */
  readonly haste: number;
}

/**
 * Cues agree more than a chain says (one crab, one hopeful observer), so the raw product is
 * over-confident: powers below 1 (guess, learned from the record). The spread is the published one.
 */
export const defaultTuning: Tuning = {
  surfacePower: 0.6,
  soundPower: 0.6,
  spreadFactor: 1,
  neverOdds: 1,
  haste: 1,
};
