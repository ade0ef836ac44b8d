/** Levels are told apart by a decibel, from full scale down to this. */
const lowest_db = -140;
/** Where a voice leaves less of the time than this, the few strokes that were heard say little of the others. */
const leastShare = 1 / 3;

/**
 * How many strokes a voice hides: each that was heard stands for as many as would have been missed at
 * other moments, as in Horvitz and Thompson 1952 (from memory): one over the share of the time in which
 * a stroke as loud would have been heard.
 */
export class VoiceMask {
  /** Moments by the level of the voice, in whole decibels over the lowest. */
  readonly #loud = new Float64Array(1 - lowest_db);
  #moments = 0;

  /** Another moment: the level of the voice that would hide a stroke no louder, dB of full scale; null for none. */
  moment(level_db: number | null): void {
    this.#moments++;
    const at = level_db === null ? 0 : binOf(level_db);
    this.#loud[at] = this.#loud[at]! + 1;
  }

  /** For how many strokes one as loud as this stands. */
  standsFor(level_db: number): number {
    if (this.#moments === 0) return 1;
    let heard = 0;
    for (let at = 0; at <= binOf(level_db); at++) heard += this.#loud[at]!;
    return 1 / Math.max(leastShare, heard / this.#moments);
  }
}

const binOf = (level_db: number): number =>
  Math.max(0, Math.min(-lowest_db, Math.round(level_db - lowest_db)));
