import { frameStep_s } from './analysis-rate.ts';
import { bandCount, binsIn, firstScratchBand } from './bands.ts';
import type { HeardFrames } from './heard-frames.ts';
import { smoothness } from './tonality.ts';
import { leastVoicing, voiceLevel, voiceShare } from './voice-near.ts';

/** Frames after an onset that must have been heard before it can be judged: 0.45 s. */
export const traitsAfter = 56;

/** Frames from an onset in which its peak lies. */
const peakWithin = 8;
/** What it rises from is looked for so many frames before. */
const beforeFrom = 14;
const beforeTo = 3;
/** What can be measured of a sudden sound once some time has passed. */
export interface OnsetTraits {
  /** Highest mean level of the scratching bands over their floors, dB. */
  readonly peak_db: number;
  /** Its power in the scratching bands over that of the floor, dB, without a limit. */
  readonly over_db: number;
  /** Power of all bands together there, dB of full scale. */
  readonly total_db: number;
  /** Energy over the floor above 400 Hz against that below, dB: negative for thumps. */
  readonly bright_db: number;
  /** As `smoothness`: low for tones. */
  readonly smooth: number;
  /** How much it repeats itself at the pitch of a voice, where it does so least. */
  readonly voicing: number;
  /** Share of the time around it in which a voice is heard. */
  readonly voiceNear: number;
  /** Its level above 800 Hz against the whole of that voice, dB: hissed consonants stay far below. */
  readonly aboveVoice_db: number;
  /** How far the level climbs within 16 ms where it climbs fastest, dB: strokes of a claw set in at once. */
  readonly steep_db: number;
  /** Seconds until it had fallen to half of its height in decibels over what was before. */
  readonly length_s: number;
}

export function traitsOf(frames: HeardFrames, frame: number): OnsetTraits {
  const peak = peakOf(frames, frame);
  return {
    peak_db: frames.level_db(peak),
    over_db: overFloor(frames, peak),
    total_db: frames.total_db(peak),
    bright_db: brightness(frames, peak),
    smooth: smoothNear(frames, frame),
    voicing: leastVoicing(frames, frame),
    voiceNear: voiceShare(frames, frame),
    aboveVoice_db:
      frames.upper_db(upperPeak(frames, frame)) - (voiceLevel(frames, frame) ?? -Infinity),
    steep_db: steepness(frames, frame),
    length_s: lengthOf(frames, frame, peak),
  };
}

function peakOf(frames: HeardFrames, frame: number): number {
  let peak = frame;
  for (let at = frame; at <= frame + peakWithin; at++) {
    if (frames.level_db(at) > frames.level_db(peak)) peak = at;
  }
  return peak;
}

function upperPeak(frames: HeardFrames, frame: number): number {
  let peak = frame;
  for (let at = frame; at <= frame + peakWithin; at++) {
    if (frames.upper_db(at) > frames.upper_db(peak)) peak = at;
  }
  return peak;
}

function overFloor(frames: HeardFrames, peak: number): number {
  let [power, floor] = [0, 0];
  for (let band = firstScratchBand; band < bandCount; band++) {
    power += frames.power(peak, band) * binsIn[band]!;
    floor += 10 ** (frames.floor_db(peak, band) / 10) * binsIn[band]!;
  }
  return 10 * Math.log10(power / floor);
}

function brightness(frames: HeardFrames, peak: number): number {
  let [low, bright] = [1e-15, 1e-15];
  for (let at = peak - 1; at <= peak + 1; at++) {
    for (let band = 0; band < bandCount; band++) {
      const over = frames.power(at, band) - 10 ** (frames.floor_db(at, band) / 10);
      const energy = Math.max(0, over) * binsIn[band]!;
      if (band < firstScratchBand) low += energy;
      else bright += energy;
    }
  }
  return 10 * Math.log10(bright / low);
}

function smoothNear(frames: HeardFrames, frame: number): number {
  const sum = new Float64Array(frames.spectrum(frame).length);
  for (let at = frame; at < frame + 4; at++) {
    const power = frames.spectrum(at);
    for (let bin = 0; bin < sum.length; bin++) sum[bin] = sum[bin]! + power[bin]!;
  }
  const weights = Float64Array.from({ length: bandCount }, (_, band) => {
    const over_db = 10 * Math.log10(frames.power(frame + 1, band)) - frames.floor_db(frame, band);
    return Math.max(0, Math.min(18, over_db) - 3);
  });
  return smoothness(sum, weights);
}

function steepness(frames: HeardFrames, frame: number): number {
  let steepest = 0;
  for (let at = frame - 3; at <= frame + 2; at++) {
    const upper_db = frames.upper_db(at + 1) - frames.upper_db(at - 1);
    const level_db = frames.level_db(at + 1) - frames.level_db(at - 1);
    steepest = Math.max(steepest, upper_db, level_db);
  }
  return steepest;
}

function lengthOf(frames: HeardFrames, frame: number, peak: number): number {
  let before_db = frames.level_db(frame);
  for (let at = frame - beforeFrom; at <= frame - beforeTo; at++) {
    before_db = Math.min(before_db, frames.level_db(at));
  }
  const half_db = (frames.level_db(peak) + Math.max(0, before_db)) / 2;
  let at = peak;
  while (at < peak + traitsAfter - peakWithin && frames.level_db(at) > half_db) at++;
  return (at - peak) * frameStep_s;
}
