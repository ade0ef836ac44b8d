import type { HeardFrames } from './heard-frames.ts';
import { quantileOf } from './texture.ts';

/** A voice is looked for this far before and after, in frames. */
const voiceBefore = 190;
const voiceAfter = 50;
const voiced = 0.6;
/** The sudden sound's own frames, left out when its surroundings are looked at. */
const ownBefore = 4;
const ownAfter = 16;
const fewest = 4;

/** Share of the time around a frame in which a voice is heard. */
export function voiceShare(frames: HeardFrames, frame: number): number {
  let [heard, of] = [0, 0];
  for (let at = frame - voiceBefore; at <= frame + voiceAfter; at++) {
    if (at < 0) continue;
    of++;
    const isVoice = frames.voice(at) > voiced && frames.level_db(at) > 3;
    if (isVoice) heard++;
  }
  return of === 0 ? 0 : heard / of;
}

/** The level over all bands that a voice around a frame reaches in a tenth of its time; null where none is. */
export function voiceLevel(frames: HeardFrames, frame: number): number | null {
  const near: number[] = [];
  for (let at = frame - voiceBefore; at <= frame + voiceAfter; at++) {
    if (at < 0 || (at >= frame - ownBefore && at <= frame + ownAfter)) continue;
    if (frames.voice(at) > voiced) near.push(frames.total_db(at));
  }
  return near.length < fewest ? null : quantileOf(near, 0.9);
}

const hides = 0.48;
/** Voices are looked for in 64 ms, of which a stroke fills about a quarter: so much louder it must be. */
const shortFor_db = 6;

/** How much the sound right after a frame repeats itself at the pitch of a voice, where it does so least. */
export function leastVoicing(frames: HeardFrames, frame: number): number {
  let least = 1;
  for (let at = frame + 4; at <= frame + 8; at++) least = Math.min(least, frames.voicing(at));
  return least;
}

/** Whether a sound repeats itself too much to be anything but a voice. */
export const isVoiced = (voicing: number): boolean => voicing > hides;

/** Level that a stroke at a frame must reach so that a voice does not hide it, dB of full scale; null where none sounds. */
export function voiceNow(frames: HeardFrames, frame: number): number | null {
  return isVoiced(leastVoicing(frames, frame)) ? frames.total_db(frame + 4) + shortFor_db : null;
}
