import type { HeardFrames } from './heard-frames.ts';
import { quantileOf } from './texture.ts';

/** A fall of the floor by this much right after a loud sound is not nature (G). */
const dip_db = 3;
const loud_db = 14;
const leastPauses = 5;
const dippedShare = 0.6;

/**
 * Notices automatic gain: after each loud sound the floor itself lies lower, then climbs back.
 * To be asked about an onset half a second after it.
 */
export class GainWatch {
  #pauses = 0;
  #dips = 0;

  follow(frames: HeardFrames, onset: number, peak_db: number): void {
    if (peak_db < loud_db) return;
    const before_db = pauseLevel(frames, onset - 40, onset - 8);
    const after_db = pauseLevel(frames, onset + 35, onset + 55);
    this.#pauses++;
    if (after_db < before_db - dip_db) this.#dips++;
  }

  get isAutomatic(): boolean {
    return this.#pauses >= leastPauses && this.#dips >= dippedShare * this.#pauses;
  }
}

/** The level in the quieter moments of a stretch, decibels of full scale. */
function pauseLevel(frames: HeardFrames, from: number, to: number): number {
  const levels: number[] = [];
  for (let at = from; at < to; at++) levels.push(frames.upper_db(at));
  return quantileOf(levels, 0.3);
}
