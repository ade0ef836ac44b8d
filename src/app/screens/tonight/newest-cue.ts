import type { Night } from '../../../core/domain/night.ts';
import {
  type Mishap,
  type Sound,
  Surface,
  type Visit,
  soundSaid,
} from '../../../core/domain/visit.ts';
import type { Moment } from '../../../core/forecast/forecast.ts';
import { nightText } from '../../../core/domain/night-text.ts';
import { surfaceWord, valueWord } from '../../../core/domain/code-words.ts';
import { listWords } from '../../../core/domain/locale.ts';

/** Sounds older than this are not worth a line: scratching comes and goes. */
const soundFades_nights = 3;

/**
 * The newest of what was seen and heard at a nest up to a moment, in a few words:
 * `depression since Tue 21 Jul · steady scratching last night`. Null when nobody looked yet.
 */
export function newestCue(visits: readonly Visit[], moment: Moment): string | null {
  // Newest first from here on.
  const past = visits.filter((visit) => visit.at_ms <= moment.at_ms).reverse();
  const parts = [surfaceCue(past, moment), soundCue(past, moment), tracksCue(past, moment)];
  const told = [...parts, mishapCue(past, moment)].filter((part) => part !== null);
  if (told.length > 0) return told.join(' · ');
  const last = past.find((visit) => visit.surface !== null || soundSaid(visit) !== null);
  if (last === undefined) return past.length === 0 ? null : 'no cue noted';
  const said = listWords(
    [last.surface, soundSaid(last)].filter((word) => word !== null).map(valueWord),
  );
  return `${said} ${when(last, moment)}`;
}

function surfaceCue(past: readonly Visit[], moment: Moment): string | null {
  const looks = past.filter((visit) => visit.surface !== null);
  const last = looks[0];
  if (last === undefined || last.surface === null || last.surface === 'smooth') return null;
  const depth = depthOf(last.surface);
  const before = looks.findIndex((look) => depthOf(look.surface) < depth);
  const first = (before === -1 ? looks.at(-1) : looks[before - 1]) ?? last;
  const word = last.surface === 'caved' ? 'caved in' : surfaceWord[last.surface];
  return `${word} ${first === last ? when(last, moment) : since(first, moment)}`;
}

function depthOf(surface: Surface | null): number {
  return surface === null ? 0 : Surface.options.indexOf(surface);
}

function soundCue(past: readonly Visit[], moment: Moment): string | null {
  const last = past.find((visit) => soundSaid(visit) !== null);
  const heard = last === undefined ? null : soundSaid(last);
  if (last === undefined || heard === null || heard === 'quiet') return null;
  if (moment.night - last.night > soundFades_nights) return null;
  return `${soundWords(heard)} ${when(last, moment)}`;
}

function soundWords(sound: Exclude<Sound, 'quiet'>): string {
  switch (sound) {
    case 'occasional':
      return 'a scratch now and then';
    case 'steady':
      return 'steady scratching';
    case 'waterfall':
      return 'a waterfall of scratching';
  }
}

function tracksCue(past: readonly Visit[], moment: Moment): string | null {
  const last = past.find((visit) => (visit.tracks ?? 0) > 0);
  if (last === undefined) return null;
  const tracks = last.tracks === 1 ? '1 track' : `${last.tracks ?? 0} tracks`;
  return `${tracks} ${when(last, moment)}`;
}

function mishapCue(past: readonly Visit[], moment: Moment): string | null {
  const last = past.find((visit) => visit.mishap !== null);
  if (last === undefined || last.mishap === null) return null;
  return `${mishapWords(last.mishap)} ${when(last, moment)}`;
}

function mishapWords(mishap: Mishap): string {
  switch (mishap) {
    case 'washover':
      return 'washed over';
    case 'washout':
      return /* @wc-include */ 'washed out';
    case 'predation':
      return 'robbed by animals';
    case 'burial':
      return 'buried by a storm';
  }
}

/** `this evening`, `this morning`, `last night`, `on Tue 21 Jul`. */
function when(visit: Visit, moment: Moment): string {
  const ago = moment.night - visit.night;
  if (ago <= 0) return visit.half === 'dawn' ? 'at dawn' : 'this evening';
  if (ago === 1) return visit.half === 'dawn' ? 'this morning' : 'last night';
  return `on ${nightText(visit.half === 'dawn' ? ((visit.night + 1) as Night) : visit.night)}`;
}

function since(visit: Visit, moment: Moment): string {
  const ago = moment.night - visit.night;
  return ago <= 0
    ? 'this evening'
    : ago === 1
      ? 'since last night'
      : `since ${nightText(visit.night)}`;
}
