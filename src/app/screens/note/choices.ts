import { instrumentWord, rainWord, windWord } from '../../../core/domain/code-words.ts';
/** The choices of a note that need no drawing, in the order in which they are shown. */
export const instruments = [
  { value: 'stethoscope', label: instrumentWord.stethoscope },
  { value: 'microphone', label: instrumentWord.microphone },
  { value: 'probe', label: instrumentWord.probe },
] as const;

export const winds = [
  { value: 'calm', label: windWord.calm },
  { value: 'breeze', label: windWord.breeze },
  { value: 'strong', label: windWord.strong },
] as const;

export const rains = [
  { value: 'none', label: rainWord.none },
  { value: 'light', label: rainWord.light },
  { value: 'heavy', label: rainWord.heavy },
] as const;
