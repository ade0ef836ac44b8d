import { stateLikelihood } from '../acoustics/state-likelihood.ts';
import { Sound, type Visit } from '../domain/visit.ts';

/** A rate without a likelihood is taken as that of ten minutes in middling conditions (G). */
const untold = { minutes: 10, poor: 0.5, stroke_s: 0.08 };

/**
 * Likelihood of what a meter heard, by sound state; null when there was none. Where only a rate was
 * written down it follows from that, flatter; beside a word by ear such a rate, of a meter that is
 * not known, says nothing more.
 */
export function meterLikelihood(visit: Visit): readonly number[] | null {
  if (visit.meter !== null) return visit.meter;
  const { scratch_per_min, active_share, sound } = visit;
  if (scratch_per_min === null || sound !== null) return null;
  const share = active_share ?? Math.min(1, (scratch_per_min * untold.stroke_s) / 60);
  const likelihood = stateLikelihood({
    events: Math.round(scratch_per_min * untold.minutes),
    usable_s: untold.minutes * 60,
    active_share: share,
    rush_share: Math.max(0, Math.min(1, (share - 0.5) / 0.5)),
    poor: untold.poor,
  });
  return Sound.options.map((state) => likelihood[state]);
}
