/** Something that makes a listening less trustworthy, or that somebody can mend. */
export type Warning =
  | 'silence'
  | 'dead'
  | 'clipped'
  | 'gated'
  | 'automatic gain'
  | 'footsteps'
  | 'rain'
  | 'talk'
  | 'bumps'
  | 'noisy'
  | 'muffled'
  | 'short';

const sentences: Readonly<Record<Warning, string>> = {
  silence: 'Nothing at all came from the microphone. Is it plugged in, and not muted?',
  dead: 'The microphone gives hardly more than rounding noise. Check the plug, or its level.',
  clipped: 'Too loud: the peaks are cut off. Turn the level down, or move the head a little.',
  gated:
    'The device silences the sound between louder ones (noise suppression). Turn it off: it swallows scratches.',
  'automatic gain': 'The device changes its own gain. Turn that off: levels mean little with it.',
  footsteps: 'Hold still: footsteps heard. That stretch does not count.',
  rain: 'Sounds like rain, drops, keys or other knocks: scratches cannot be told from them.',
  talk: 'Talk nearby. Scratches fainter than it are missed.',
  bumps: 'Bumps on the microphone or its cable. Lay it down and let go of it.',
  noisy: 'Restless noise (wind, surf, water): faint scratches are missed.',
  muffled:
    'Hardly more than rumble comes through: wind on the microphone, or the head does not lie flat.',
  short: 'Too short to tell. Ten minutes are good; any length counts for what it is.',
};

/** The warning as a sentence that says what to do. */
export function warningText(warning: Warning): string {
  return sentences[warning];
}
