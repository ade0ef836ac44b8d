/**
 * After an onset the detector is deaf to another for about this long. Measured on sketches of strokes
 * at random moments, 60 to 240 a minute: none is found sooner than 0.06 s, about half of those of the
 * next 0.03 s, nearly all later ones.
 */
const deaf_s = 0.09;
/** How dense events are right after that is looked up here ... */
const lookTo_s = 0.21;
/** ... and held back by as much time without any, so that a few events correct nothing. */
const shy_s = 1;

/**
 * How many events there were for each that was found: 1 and more. Correction for a non-paralysable
 * dead time, true = found / (1 - found rate x dead time) (Knoll, Radiation Detection and Measurement,
 * chapter 4, from memory), in the form true = found x (1 + rate x dead time), with the rate taken from the
 * events that follow soonest. So strokes that keep their distance are not corrected, those at random
 * moments are. `at_s` in order.
 */
export function missedByDeafness(at_s: readonly number[]): number {
  let [soon, looked_s] = [0, shy_s];
  at_s.slice(1).forEach((at, index) => {
    const gap_s = at - (at_s[index] ?? at);
    looked_s += Math.max(0, Math.min(lookTo_s, gap_s) - deaf_s);
    if (gap_s >= deaf_s && gap_s < lookTo_s) soon++;
  });
  return 1 + (soon / looked_s) * deaf_s;
}
