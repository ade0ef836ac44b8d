import type { Stretch } from './footsteps.ts';
import { quantileOf } from './texture.ts';

/** A sudden sound that may be a stroke. */
export interface Candidate {
  readonly at_s: number;
  /** As `strokeOdds` gives it. */
  readonly odds: number;
}

const remembered = 14;
const within_s = 60;
const least = 4;
/** One sound alone decides no more than this. */
const strongest = 1.5;
/** Together so much against, and most of them: they are something else. */
const leastSum = -2;
/** In a rush, whose grains run into each other, no sound is quite like a stroke: it takes more. */
const leastSumRushing = -7;
/** Left and right of them nothing counts. */
const before_s = 1;
const after_s = 3;

/**
 * Looks at the last sudden sounds together: one may be unlike a stroke by chance, not all of them. Keys,
 * drops, creaks, metal. Call `follow` in the order of time.
 */
export class SeriesListener {
  #lately: Candidate[] = [];

  /** The stretch in which the sudden sounds together are no strokes; null where they may be. */
  follow(candidate: Candidate, isRushing: boolean): Stretch | null {
    this.#lately = [...this.#lately, candidate]
      .filter(({ at_s }) => at_s > candidate.at_s - within_s)
      .slice(-remembered);
    const [first, last] = [this.#lately[0], this.#lately.at(-1)];
    if (this.#lately.length < least || first === undefined || last === undefined) return null;
    if (this.#sum > (isRushing ? leastSumRushing : leastSum)) return null;
    const odds = this.#lately.map((each) => each.odds);
    if (quantileOf(odds, 0.5) > 0) return null;
    return { from_s: first.at_s - before_s, to_s: last.at_s + after_s };
  }

  /** Probability that the newest is none, from all of them; nothing while together they may be strokes. */
  get doubt(): number {
    return Math.max(0, 1 - Math.exp(this.#sum));
  }

  get #sum(): number {
    return this.#lately.reduce(
      (sum, { odds }) => sum + Math.max(-strongest, Math.min(strongest, odds)),
      0,
    );
  }
}
