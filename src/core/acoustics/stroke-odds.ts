import type { OnsetTraits } from './onset-traits.ts';
import type { OnsetWidth } from './onset-width.ts';
import type { Ringing } from './ringing.ts';

/**
 * Each speaks against a stroke of a claw or a fall of sand from a limit on, in proportion to how far it
 * lies beyond. The weights are those of a logistic regression of sketched strokes and falls (three
 * kinds, both instruments, 6 and 12 dB over six backgrounds) against what was taken for scratches in
 * recordings of keys, drops, a ship, birds, steps, voices, fires and metal, each recording weighed
 * alike and each told by the fit to the others; rounded.
 */
const plain = 0.8;
const weights = { struck: 2.8, slow: 1.55, pitched: 2.3, ringing: 1.6, fading: 2.8, voiced: 0.55 };

/** What the odds follow from. */
export type Likeness = Pick<
  OnsetTraits,
  'peak_db' | 'over_db' | 'steep_db' | 'length_s' | 'voicing'
> &
  Pick<OnsetWidth, 'struck'> &
  Ringing;

/** Log of the odds that a broad sudden sound is a stroke or a fall of sand rather than something else. */
export function strokeOdds(sound: Likeness): number {
  // What hardly stands out of the noise cannot climb far.
  const usual_db = 0.6 * Math.max(0, Math.min(sound.over_db, sound.peak_db));
  const lasting = Math.min(1, 4 * Math.max(0, sound.length_s - 0.12));
  const against =
    weights.struck * Math.max(0, sound.struck - 0.35) +
    weights.slow * Math.max(0, (usual_db - sound.steep_db) / 4) +
    weights.pitched * beyond(sound.pitched, 0.18) +
    weights.ringing * lasting * beyond(sound.tailPitched, 0.13) +
    weights.fading * lasting * Math.min(1, Math.max(0, (-sound.tail_db - 5) / 8)) +
    weights.voiced * 5 * Math.max(0, sound.voicing - 0.22);
  return plain - against;
}

const beyond = (share: number, from: number): number => Math.max(0, Math.log(share / from));
