import { frameSize } from './analysis-rate.ts';
import { bin_hz } from './bands.ts';
import type { HeardFrames } from './heard-frames.ts';

/** Frames from an onset that hold the sound itself, and those that hold what is left of it. */
const own = { from: 0, to: 6 } as const;
const tail = { from: 6, to: 14 } as const;
/** What it stands on lies here. */
const before = { from: -14, to: -4 } as const;
const lowest = Math.round(500 / bin_hz);
const highest = Math.round(6600 / bin_hz);
/** Less than one and a half times what it stands on is flicker. */
const overBefore = 1.5;

/** How a sudden sound rings: sand is many small knocks without a pitch, a drop or a plate has one. */
export interface Ringing {
  /** Share of its power between 500 Hz and 6.6 kHz that lies in the strongest 62 Hz. */
  readonly pitched: number;
  /** The same of what is left of it 50 to 110 ms later. */
  readonly tailPitched: number;
  /** That rest against the sound itself, dB. */
  readonly tail_db: number;
}

export function ringingOf(frames: HeardFrames, frame: number): Ringing {
  const floor = meanSpectrum(frames, frame, before);
  const sound = over(meanSpectrum(frames, frame, own), floor);
  const rest = over(meanSpectrum(frames, frame, tail), floor);
  return {
    pitched: sound.highest / sound.sum,
    tailPitched: rest.highest / rest.sum,
    tail_db: 10 * Math.log10(rest.sum / sound.sum),
  };
}

function meanSpectrum(
  frames: HeardFrames,
  frame: number,
  { from, to }: { readonly from: number; readonly to: number },
): Float64Array {
  const mean = new Float64Array(frameSize / 2);
  for (let at = frame + from; at < frame + to; at++) {
    const power = frames.spectrum(at);
    for (let bin = lowest; bin < highest; bin++) {
      mean[bin] = mean[bin]! + power[bin]! / (to - from);
    }
  }
  return mean;
}

function over(
  power: Float64Array,
  floor: Float64Array,
): { readonly sum: number; readonly highest: number } {
  // Never quite nothing, so that shares of it are numbers.
  let sum = 1e-20;
  let most = 0;
  for (let bin = lowest; bin < highest; bin++) {
    const rest = Math.max(0, power[bin]! - overBefore * floor[bin]!);
    sum += rest;
    most = Math.max(most, rest);
  }
  return { sum, highest: most };
}
