import type { Stretch } from './footsteps.ts';

/** A sudden sound as it matters for drops and clicks. */
export interface Knock {
  readonly at_s: number;
  /** As `widthOf`. */
  readonly width_s: number;
}

/**
 * One knock and no more: drops, clicks, ticks. Of sketched strokes a tenth are as short as this, where
 * the noise hides all but their loudest grain (measured on sketches; the strokes of real claws may be
 * shorter, and then the meter does not tell).
 */
const short_s = 0.0065;
const remembered = 8;
const within_s = 60;
const least = 4;
const leastShort = 0.7;
/** Left and right of the drops that were heard, nothing counts. */
const before_s = 1;
const after_s = 3;

/** Whether a sudden sound is one single knock. */
export function isKnock(width_s: number): boolean {
  return width_s <= short_s;
}

/** Hears drops and clicks that come too seldom to be a texture. Call `follow` in the order of time. */
export class DropListener {
  #knocks: Knock[] = [];

  /** The stretch in which nearly all sudden sounds were single knocks; null when they were not. */
  follow(knock: Knock): Stretch | null {
    this.#knocks = [...this.#knocks, knock]
      .filter(({ at_s }) => at_s > knock.at_s - within_s)
      .slice(-remembered);
    const of = this.#knocks.length;
    const short = this.#knocks.filter(({ width_s }) => isKnock(width_s));
    const [first, last] = [short[0], short.at(-1)];
    if (of < least || first === undefined || last === undefined) return null;
    // Of four all must be short, of five or six all but one, of seven or eight all but two.
    const needed = of === least ? least : Math.ceil(leastShort * of);
    if (short.length < needed) return null;
    return { from_s: first.at_s - before_s, to_s: last.at_s + after_s };
  }
}
