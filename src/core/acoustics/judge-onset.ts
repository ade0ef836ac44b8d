import type { Onset } from './onsets.ts';
import type { OnsetTraits } from './onset-traits.ts';
import { isVoiced } from './voice-near.ts';

/** What a sudden sound was taken for. */
export type Verdict =
  'scratch' | 'thump' | 'voice' | 'tone' | 'faint' | 'narrow' | 'click' | 'swell' | 'unlike';

// The limits below were set on sketches of scratches in recordings of real wind, voices, insects, steps and
// bumps at 6 and 10 dB; `npm run bench -- listen` prints what they do. They leave room on both sides (G).
const leastBright_db = 0.5;
const leastSmooth = 0.6;
/** Where a voice is heard in more of the time around than this, a sudden sound may be part of it. */
const voiceIsNear = 0.06;
/**
 * Of a voice is what is fainter than it, the more so the more tonal it is inside its bands and the more it
 * repeats itself: decibels for a unit of each, by a logistic regression of strokes at 6 and 12 dB among
 * sketched and recorded voices against the onsets of three sets of recorded ones.
 */
const smooth_db = 48;
const usualSmooth = 0.75;
const voicing_db = 8;
const leastBesideVoice_db = -2;
/** A stroke sets in at once; a gust or a creak grows. By its height, as what hardly stands out cannot climb far. */
const leastSteep_db = 5.5;
const leastSteepOfPeak = 0.4;
const leastOdds = -2;
const leastMiddle = 3;
const leastPeak_db = 8;
const leastPeakRestless_db = 10;
const restlessFine_db = 1.6;
/** Shorter than the shortest stroke whose grains stand out of the noise. */
const leastWidth_s = 0.0045;

/**
 * Whether an onset is a scratch or a fall of sand, or what else; `width_s` as `widthOf` gives it, `odds`
 * as `strokeOdds`, `fine_db` as in `Texture`.
 */
export function judgeOnset(
  onset: Onset,
  traits: OnsetTraits,
  { width_s, odds }: { readonly width_s: number; readonly odds: number },
  fine_db: number,
): Verdict {
  if (isOfVoice(traits)) return 'voice';
  if (traits.bright_db < leastBright_db) return 'thump';
  if (isVoiced(traits.voicing)) return 'voice';
  if (traits.smooth < leastSmooth) return 'tone';
  if (onset.middle < leastMiddle) return 'narrow';
  const least_db = fine_db > restlessFine_db ? leastPeakRestless_db : leastPeak_db;
  if (traits.peak_db < least_db) return 'faint';
  if (width_s < leastWidth_s) return 'click';
  const steep_db = Math.min(leastSteep_db, leastSteepOfPeak * traits.peak_db);
  if (traits.steep_db < steep_db) return 'swell';
  return odds < leastOdds ? 'unlike' : 'scratch';
}

function isOfVoice({ voiceNear, aboveVoice_db, smooth, voicing }: OnsetTraits): boolean {
  if (voiceNear <= voiceIsNear) return false;
  const beside_db = aboveVoice_db + smooth_db * (smooth - usualSmooth) - voicing_db * voicing;
  return beside_db < leastBesideVoice_db;
}
