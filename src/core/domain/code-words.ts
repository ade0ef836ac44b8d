import type { Lamp, LampColour, LampKind } from './lamp.ts';
import type {
  Emergence,
  Experience,
  Instrument,
  Mishap,
  Rain,
  Sound,
  Surface,
  WayStep,
  Wind,
} from './visit.ts';
import type { Role } from './volunteer.ts';

// The values of the record as words on a screen, in the language that is shown. What goes into the
// record or into a file is the value itself, never one of these.

export const surfaceWord: Readonly<Record<Surface, string>> = {
  smooth: /* @wc-include */ 'smooth',
  dip: /* @wc-include */ 'dip',
  depression: /* @wc-include */ 'depression',
  caved: /* @wc-include */ 'caved',
};

export const soundWord: Readonly<Record<Sound, string>> = {
  quiet: /* @wc-include */ 'quiet',
  occasional: /* @wc-include */ 'occasional',
  steady: /* @wc-include */ 'steady',
  waterfall: /* @wc-include */ 'waterfall',
};

export const mishapWord: Readonly<Record<Mishap, string>> = {
  washover: /* @wc-include */ 'washover',
  washout: /* @wc-include */ 'washout',
  predation: /* @wc-include */ 'predation',
  burial: /* @wc-include */ 'burial',
};

export const instrumentWord: Readonly<Record<Instrument, string>> = {
  stethoscope: /* @wc-include */ 'stethoscope',
  microphone: /* @wc-include */ 'microphone',
  probe: /* @wc-include */ 'probe',
};

export const windWord: Readonly<Record<Wind, string>> = {
  calm: /* @wc-include */ 'calm',
  breeze: /* @wc-include */ 'breeze',
  strong: /* @wc-context: wind */ /* @wc-include */ 'strong',
};

export const rainWord: Readonly<Record<Rain, string>> = {
  none: /* @wc-context: rain */ /* @wc-include */ 'none',
  light: /* @wc-context: rain */ /* @wc-include */ 'light',
  heavy: /* @wc-context: rain */ /* @wc-include */ 'heavy',
};

export const experienceWord: Readonly<Record<Experience, string>> = {
  novice: /* @wc-include */ 'novice',
  trained: /* @wc-include */ 'trained',
  lead: /* @wc-include */ 'lead',
};

export const roleWord: Readonly<Record<Role, string>> = {
  lead: /* @wc-include */ 'lead',
  sitter: /* @wc-include */ 'sitter',
  'permit holder': /* @wc-include */ 'permit holder',
  reader: /* @wc-include */ 'reader',
};

export const emergenceWord: Readonly<Record<Emergence, string>> = {
  boil: /* @wc-include */ 'boil',
  stragglers: /* @wc-include */ 'stragglers',
};

export const wayWord: Readonly<Record<WayStep, string>> = {
  holes: /* @wc-include */ 'holes',
  gear: /* @wc-include */ 'gear',
  lamps: /* @wc-include */ 'lamps',
  people: /* @wc-include */ 'people',
};

export const halfWord: Readonly<Record<'evening' | 'morning', string>> = {
  evening: /* @wc-include */ 'evening',
  morning: /* @wc-include */ 'morning',
};

export const lampKindWord: Readonly<Record<LampKind, string>> = {
  'street lamp': /* @wc-include */ 'street lamp',
  building: /* @wc-include */ 'building',
  window: /* @wc-include */ 'window',
  porch: /* @wc-include */ 'porch',
  pool: /* @wc-include */ 'pool',
  sign: /* @wc-include */ 'sign',
  vehicle: /* @wc-include */ 'vehicle',
  'hand light': /* @wc-include */ 'hand light',
  fire: /* @wc-include */ 'fire',
  'glow in the sky': /* @wc-include */ 'glow in the sky',
  other: /* @wc-include */ 'other',
};

export const lampColourWord: Readonly<Record<LampColour, string>> = {
  white: /* @wc-include */ 'white',
  'blue-white': /* @wc-include */ 'blue-white',
  yellow: /* @wc-include */ 'yellow',
  amber: /* @wc-include */ 'amber',
  red: /* @wc-include */ 'red',
  green: /* @wc-context: light */ /* @wc-include */ 'green',
  other: /* @wc-include */ 'other',
};

/** `yes`, `no`. */
export function yesNoWord(value: boolean): string {
  return value ? /* @wc-include */ 'yes' : /* @wc-include */ 'no';
}

const everyWord: Readonly<Record<string, string>> = {
  ...surfaceWord,
  ...soundWord,
  ...mishapWord,
  ...instrumentWord,
  ...windWord,
  ...rainWord,
  ...experienceWord,
  ...emergenceWord,
  ...halfWord,
};

/** A value of a note's field that is chosen from a list, as a word; a free text as it stands. */
export function valueWord(value: string): string {
  return Object.hasOwn(everyWord, value) ? (everyWord[value] ?? value) : value;
}

/** A lamp as one would say it: `white street lamp, by the car park`. */
export function lampWords({ kind, colour, place }: Lamp): string {
  const what = lampKindWord[kind];
  const named =
    colour === null || colour === 'other'
      ? what
      : /* @wc-context: colour, kind of lamp */ /* @wc-include */ `${lampColourWord[colour]} ${what}`;
  return place === null ? named : `${named}, ${place}`;
}
