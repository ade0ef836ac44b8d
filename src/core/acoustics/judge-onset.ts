import type { Onset } from './onsets.ts';
import type { OnsetTraits } from './onset-traits.ts';

/** What a sudden sound was taken for. */
export type Verdict = 'scratch' | 'thump' | 'voice' | 'tone' | 'faint' | 'narrow' | 'click';

// The limits below were set on sketches of scratches in recordings of real wind, voices, insects, steps and
// bumps at 6 and 10 dB; `npm run bench -- listen` prints what they do. They leave room on both sides (G).
const leastBright_db = 0.5;
const leastSmooth = 0.6;
const mostVoicing = 0.48;
const voiceIsNear = 0.06;
const leastAboveVoice_db = -3;
const leastMiddle = 3;
const leastPeak_db = 8;
const leastPeakRestless_db = 10;
const restlessFine_db = 1.6;
/** Shorter than the shortest stroke whose grains stand out of the noise. */
const leastWidth_s = 0.0045;

/**
 * Whether an onset is a scratch or a fall of sand, or what else; `width_s` as
 * `widthOf` gives it, `fine_db` as in `Texture`.
 */
export function judgeOnset(
  onset: Onset,
  traits: OnsetTraits,
  width_s: number,
  fine_db: number,
): Verdict {
  if (traits.voiceNear > voiceIsNear && traits.aboveVoice_db < leastAboveVoice_db) return 'voice';
  if (traits.bright_db < leastBright_db) return 'thump';
  if (traits.voicing > mostVoicing) return 'voice';
  if (traits.smooth < leastSmooth) return 'tone';
  if (onset.middle < leastMiddle) return 'narrow';
  const least_db = fine_db > restlessFine_db ? leastPeakRestless_db : leastPeak_db;
  if (traits.peak_db < least_db) return 'faint';
  return width_s < leastWidth_s ? 'click' : 'scratch';
}
