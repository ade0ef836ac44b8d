/** The choices of a note that need no drawing, in the order in which they are shown. */
export const instruments = [
  { value: 'stethoscope', label: 'stethoscope' },
  { value: 'microphone', label: 'microphone' },
  { value: 'probe', label: 'probe' },
] as const;

export const winds = [
  { value: 'calm', label: 'calm' },
  { value: 'breeze', label: 'breeze' },
  { value: 'strong', label: 'strong' },
] as const;

export const rains = [
  { value: 'none', label: 'none' },
  { value: 'light', label: 'light' },
  { value: 'heavy', label: 'heavy' },
] as const;
