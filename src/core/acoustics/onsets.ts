import { frameStep_s, framesPerSecond } from './analysis-rate.ts';
import type { Rise } from './rise.ts';

/** The least rise that is an onset, dB (G): a stationary noise reaches it less than once in ten minutes. */
const leastRise_db = 4;
/** Bands that must rise together: a voice's partials or an insect fill fewer. */
const leastBroad = 4;
/** The least level over the floor, dB. */
const leastLevel_db = 3;
/** Two onsets are no closer: one stroke of a claw lasts about as long (G). */
const apart = Math.round(0.06 * framesPerSecond);
/**
 * While a sound lasts, another stroke is told from its own flicker by a gap this deep before it, or
 * by a rise this high. Strokes are a tenth of a second long, a fall of sand up to a second (G).
 */
const gap_db = 6;
const plainRise_db = 9;
const lasts = Math.round(0.7 * framesPerSecond);
/** Where the sound itself is restless the rise must stand out from that: this far above ... */
const aboveRestless_db = 3;
/** ... this share of the frames of the last seconds. */
const restlessQuantile = 0.85;
const restlessStep_db = 0.06;

/** A sudden broad sound, not yet judged. */
export interface Onset {
  /** The short frame in which it began. */
  readonly frame: number;
  /** Seconds from the start of the listening. */
  readonly at_s: number;
  readonly rise_db: number;
  readonly broad: number;
  readonly middle: number;
}

/** Finds onsets in the rises of successive frames, one frame late. */
export class OnsetFinder {
  /** Follows `restlessQuantile` of the rises. */
  #restless_db = 0;
  #frame = -1;
  #before: Rise | null = null;
  #twoBefore: Rise | null = null;
  #last = -apart;
  /** Lowest level since the last onset, and the highest. */
  #lowest_db = -Infinity;
  #highest_db = -Infinity;

  /**
   * The onset at the frame before this one, if that was one. `raised_db` is added to the least rise, where the
   * sound is restless for other reasons.
   */
  follow(rise: Rise, raised_db: number): Onset | null {
    this.#frame++;
    const [peak, earlier] = [this.#before, this.#twoBefore];
    this.#twoBefore = peak;
    this.#before = rise;
    const step = restlessStep_db;
    this.#restless_db +=
      rise.rise_db > this.#restless_db ? step * restlessQuantile : -step * (1 - restlessQuantile);
    this.#restless_db = Math.max(0, this.#restless_db);
    if (peak === null || earlier === null) return null;
    this.#lowest_db = Math.min(this.#lowest_db, peak.level_db);
    this.#highest_db = Math.max(this.#highest_db, peak.level_db);
    if (
      !this.#stands(peak, raised_db) ||
      peak.rise_db < rise.rise_db ||
      peak.rise_db < earlier.rise_db
    )
      return null;
    const at = this.#frame - 1;
    if (at - this.#last < apart) return null;
    const isGap = this.#lowest_db <= Math.max(2, this.#highest_db - gap_db);
    if (at - this.#last < lasts && !isGap && peak.rise_db < plainRise_db) return null;
    this.#last = at;
    this.#lowest_db = peak.level_db;
    this.#highest_db = peak.level_db;
    const { rise_db, broad, middle } = peak;
    return { frame: at, at_s: at * frameStep_s, rise_db, broad, middle };
  }

  #stands({ rise_db, broad, level_db }: Rise, raised_db: number): boolean {
    const needed = Math.max(leastRise_db + raised_db, this.#restless_db + aboveRestless_db);
    return rise_db >= needed && broad >= leastBroad && level_db >= leastLevel_db;
  }
}
