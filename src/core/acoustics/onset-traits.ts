import { bandCount, binsIn, firstScratchBand } from './bands.ts';
import type { HeardFrames } from './heard-frames.ts';
import { quantileOf } from './texture.ts';
import { smoothness } from './tonality.ts';

/** Frames after an onset that must have been heard before it can be judged: 0.45 s. */
export const traitsAfter = 56;

/** Frames from an onset in which its peak lies. */
const peakWithin = 8;
/** A voice is looked for this far before and after, in frames. */
const voiceBefore = 190;
const voiceAfter = 50;
const voiced = 0.6;
/** The event's own frames, left out when its surroundings are looked at. */
const ownBefore = 4;
const ownAfter = 16;

/** What can be measured of a sudden sound once some time has passed. */
export interface OnsetTraits {
  /** Highest mean level of the scratching bands over their floors, dB. */
  readonly peak_db: number;
  /** Its power in the scratching bands over that of the floor, dB, without a limit. */
  readonly over_db: number;
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
  /** Seconds until it had fallen to half of its height in decibels. */
  readonly length_s: number;
}

export function traitsOf(frames: HeardFrames, frame: number): OnsetTraits {
  const peak = peakOf(frames, frame);
  return {
    peak_db: frames.level_db(peak),
    over_db: overFloor(frames, peak),
    bright_db: brightness(frames, peak),
    smooth: smoothNear(frames, frame),
    voicing: leastVoicing(frames, frame),
    voiceNear: voiceShare(frames, frame),
    aboveVoice_db:
      frames.upper_db(upperPeak(frames, frame)) - (voiceLevel(frames, frame) ?? -Infinity),
    steep_db: steepness(frames, frame),
    length_s: lengthOf(frames, peak),
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

function leastVoicing(frames: HeardFrames, frame: number): number {
  let least = 1;
  for (let at = frame + 4; at <= frame + 8; at++) least = Math.min(least, frames.voicing(at));
  return least;
}

function voiceShare(frames: HeardFrames, frame: number): number {
  let [heard, of] = [0, 0];
  for (let at = frame - voiceBefore; at <= frame + voiceAfter; at++) {
    if (at < 0) continue;
    of++;
    const isVoice = frames.voice(at) > voiced && frames.level_db(at) > 3;
    if (isVoice) heard++;
  }
  return of === 0 ? 0 : heard / of;
}

/** The level over all bands that a voice around the event reaches in a tenth of its time; null where none is. */
function voiceLevel(frames: HeardFrames, frame: number): number | null {
  const near: number[] = [];
  for (let at = frame - voiceBefore; at <= frame + voiceAfter; at++) {
    if (at < 0 || (at >= frame - ownBefore && at <= frame + ownAfter)) continue;
    if (frames.voice(at) > voiced) near.push(frames.total_db(at));
  }
  return near.length < 4 ? null : quantileOf(near, 0.9);
}

function steepness(frames: HeardFrames, frame: number): number {
  let steepest = 0;
  for (let at = frame - 3; at <= frame + 2; at++) {
    steepest = Math.max(steepest, frames.upper_db(at + 1) - frames.upper_db(at - 1));
  }
  return steepest;
}

function lengthOf(frames: HeardFrames, peak: number): number {
  const half_db = frames.level_db(peak) / 2;
  let at = peak;
  while (at < peak + traitsAfter - peakWithin && frames.level_db(at) > half_db) at++;
  return (at - peak) * 0.008;
}
