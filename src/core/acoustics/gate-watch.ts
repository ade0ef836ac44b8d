import { bandCount } from './bands.ts';
import type { HeardFrames } from './heard-frames.ts';

/** Frames averaged before and after, with room between for the frames that lie across a step. */
const averaged = 5;
const between = 5;
/** A step is looked for this often, frames. */
export const gateEvery = 4;
/** All bands together move by this much on the mean ... */
const leastStep_db = 8;
/** ... and by no less than this, no more apart than that (G): no sound of the field has the spectrum of the floor. */
const leastInBand_db = 5;
const mostApart_db = 2.6;
const leastSteps = 3;
const perMinute = 6;
/** Two steps are no closer than this, frames. */
const apart = 16;

/**
 * Notices noise suppression that opens and closes: steps of the level by the same amount in every band
 * at once, which only a gain makes. Call `follow` for every frame; it looks at some.
 */
export class GateWatch {
  #opened = 0;
  #closed = 0;
  #last = -apart;
  #frames = 0;

  follow(frames: HeardFrames): void {
    this.#frames = frames.count;
    const needed = 2 * averaged + between;
    if (frames.count % gateEvery !== 0 || frames.count < needed) return;
    if (frames.count - this.#last < apart) return;
    const step_db = gainStep(frames);
    if (step_db === null) return;
    if (step_db > 0) this.#opened++;
    else this.#closed++;
    this.#last = frames.count;
  }

  /** `frames_s` is the time from one frame to the next. */
  isGated(frames_s: number): boolean {
    return (
      Math.min(this.#opened, this.#closed) >=
      Math.max(leastSteps, (perMinute * this.#frames * frames_s) / 60)
    );
  }
}

function gainStep(frames: HeardFrames): number | null {
  const end = frames.count;
  const steps = Array.from({ length: bandCount }, (_, band) => {
    const after = meanPower(frames, end - averaged, band);
    const before = meanPower(frames, end - 2 * averaged - between, band);
    return 10 * Math.log10((after + 1e-14) / (before + 1e-14));
  });
  const mean = steps.reduce((sum, step) => sum + step, 0) / bandCount;
  if (Math.abs(mean) < leastStep_db) return null;
  if (steps.some((step) => step * Math.sign(mean) < leastInBand_db)) return null;
  const squares = steps.reduce((sum, step) => sum + (step - mean) ** 2, 0);
  return Math.sqrt(squares / bandCount) < mostApart_db ? mean : null;
}

function meanPower(frames: HeardFrames, from: number, band: number): number {
  let sum = 0;
  for (let at = from; at < from + averaged; at++) sum += frames.power(at, band);
  return sum / averaged;
}
