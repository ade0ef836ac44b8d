import { framesPerSecond } from './analysis-rate.ts';
import { bandCount } from './bands.ts';

/** The floor is this quantile of the recent levels: scratching may fill well over half of the time. */
const quantile = 0.3;
/** It climbs no faster than this, so that a slide or a gust of seconds does not become the floor (G). */
const climb_dbPerSecond = 1.2;
/** It falls this fast once everything lately was below it: after a loud passage (G). */
const fall_dbPerSecond = 25;
/** Frames that must all lie below the floor before it falls fast. */
const quietFrames = Math.round(0.3 * framesPerSecond);

/**
 * The level of each band in the pauses, decibels, followed frame by frame: slowly up, slowly down,
 * fast down after a loud passage. Does not look ahead.
 */
export class NoiseFloor {
  readonly db = new Float64Array(bandCount);
  readonly #highest = new Float64Array(bandCount).fill(-Infinity);
  readonly #since = new Int32Array(bandCount);

  /** Starts from the levels of some frames, each with one value a band. Throws when there are none. */
  start(frames: readonly Float64Array[]): void {
    if (frames.length === 0) throw new RangeError('The noise floor starts from one frame or more.');
    for (let band = 0; band < bandCount; band++) {
      const levels = frames.map((frame) => frame[band]!).sort((a, b) => a - b);
      this.db[band] = levels[Math.floor(quantile * (levels.length - 1))]!;
    }
  }

  /** Follows one more frame of levels in decibels. */
  follow(levels_db: Float64Array): void {
    const up_db = climb_dbPerSecond / framesPerSecond;
    const down_db = (up_db * (1 - quantile)) / quantile;
    const fast_db = fall_dbPerSecond / framesPerSecond;
    for (let band = 0; band < bandCount; band++) {
      const level = levels_db[band]!;
      const floor = this.db[band]!;
      if (level > floor) {
        this.db[band] = Math.min(level, floor + up_db);
        this.#since[band] = 0;
        this.#highest[band] = -Infinity;
        continue;
      }
      const highest = Math.max(level, this.#highest[band]!);
      this.#highest[band] = highest;
      const since = this.#since[band]! + 1;
      this.#since[band] = since;
      this.db[band] =
        since > quietFrames ? Math.max(highest, floor - fast_db) : Math.max(level, floor - down_db);
    }
  }
}
