import { bandCount, binsIn } from './bands.ts';
import type { HeardFrames } from './heard-frames.ts';
import { smoothness } from './tonality.ts';

/** Weight of a new value in the running means: some two seconds for what is measured every fourth frame ... */
const slowly = 0.015;
/** ... and for what is measured in each, some three. */
const slower = 0.4 * slowly;
/** The smoothness is taken of so many frames together. */
const together = 4;

/** How the sound of the last seconds was, as running means. */
export class Lately {
  #voiceShare = 0;
  #bright_db = 0;
  #smooth = 0.75;

  /** Share of the time in which a voice is heard. */
  get voiceShare(): number {
    return this.#voiceShare;
  }

  /** Level above 800 Hz against the whole, dB. */
  get bright_db(): number {
    return this.#bright_db;
  }

  /** As `smoothness`. */
  get smooth(): number {
    return this.#smooth;
  }

  /** Follows the newest of the frames, whose level above 800 Hz against the whole this is. */
  follow(frames: HeardFrames, bright_db: number, isVoice: boolean): void {
    this.#voiceShare += slower * ((isVoice ? 1 : 0) - this.#voiceShare);
    this.#bright_db += slower * (bright_db - this.#bright_db);
    if (frames.count % together === 0) this.#smooth += slowly * (smoothNow(frames) - this.#smooth);
  }
}

function smoothNow(frames: HeardFrames): number {
  const newest = frames.count - 1;
  const sum = new Float64Array(frames.spectrum(newest).length);
  for (let back = 0; back < together; back++) {
    const power = frames.spectrum(newest - back);
    for (let bin = 0; bin < sum.length; bin++) sum[bin] = sum[bin]! + power[bin]!;
  }
  const weights = Float64Array.from(
    { length: bandCount },
    (_, band) => binsIn[band]! * frames.power(newest, band),
  );
  return smoothness(sum, weights);
}
