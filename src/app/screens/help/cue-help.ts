import type { Sound, Surface } from '../../../core/domain/visit.ts';

/** What a cue is, in the words of somebody who kneels beside the nest. */
export interface CueHelp<Cue extends string> {
  readonly cue: Cue;
  readonly what: string;
}

/**
 * Hatchlings wait in shallow pockets under the surface, which collapse (Poornima 2021, J Threat Taxa
 * 13(5):18122-18131: craters of 10 to 26 cm). The other measures are common practice, no source.
 */
export const surfaces: readonly CueHelp<Surface>[] = [
  { cue: 'smooth', what: 'Level, or with the ripples of the wind. Says little either way.' },
  {
    cue: 'dip',
    what: 'Barely lower than around it, a finger deep. Look along the sand with the light low and red.',
  },
  {
    cue: 'depression',
    what: 'A plain hollow, a hand wide or more: sand runs down as they work up.',
  },
  {
    cue: 'caved',
    what: 'Fallen in, with an edge or an opening. It can be minutes, or a false alarm.',
  },
];

/** Common practice, no source; the meter's own bounds are in the defaults (Programme). */
export const sounds: readonly CueHelp<Sound>[] = [
  {
    cue: 'quiet',
    what: 'Only the sea and yourself. They rest often: a quiet minute is no quiet nest.',
  },
  { cue: 'occasional', what: 'A scratch now and then, a small fall of sand.' },
  { cue: 'steady', what: 'Scratching that goes on, stops, and goes on.' },
  { cue: 'waterfall', what: 'One unbroken rush, as of falling sand. Stay.' },
];

export const howToListen: readonly string[] = [
  'Only with the permit holder’s consent is anything laid on the sand. Nothing is pushed into it.',
  'Lay the stethoscope head or the microphone beside the nest, never on top of it.',
  'Keep still: toes, knees and cloth are louder than hatchlings.',
  'Listen for ten minutes. They rest between bouts, mostly for less than ten (Dor et al. 2024).',
  'Surf, wind, rain and insects hide scratching. When they are loud, leave the sound open: not heard is not the same as quiet.',
];

export const keepItDark: readonly string[] = [
  'No white light, no flash, no photographs by phone. Red, low and as short as can be.',
  'Stay back and low, behind the nest and never between it and the sea.',
  'Fill holes, flatten ridges, move gear out of the way to the water before dark.',
  'Tell people kindly, early, and let them watch from behind.',
  'Never touch, dig or help. What goes wrong is the permit holder’s to mend: call.',
];

export const whatOddsMean: readonly string[] = [
  '40 % means: of ten nests with that number, about four boil tonight, and six do not.',
  'The odds take in the lay night, the warmth of the sand, how this season runs, and every note, with how often people misread.',
  'A low number is no promise. A nest that nobody watches can still boil.',
  '“Already” means that it may have come up unseen; “never”, that it may not come up at all.',
  'Season shows how good the odds were so far, beside a plain count of days.',
];
