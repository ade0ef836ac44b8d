import { asNight, wallClock } from '../../../core/domain/night.ts';
import { nightText } from '../../../core/domain/night-text.ts';
import type { VisitDetails } from '../../../core/domain/visit.ts';
import { valueWord } from '../../../core/domain/code-words.ts';

/** `21:10` on the clocks of a zone. */
export function hourText(at_ms: number, zone: string): string {
  const { minute } = wallClock(at_ms, zone);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

/** `Mon 20 Jul`, the date on the clocks of a zone. */
export function dateText(at_ms: number, zone: string): string {
  return nightText(asNight(wallClock(at_ms, zone).day));
}

/** `1 h 40 min`, `25 min`. */
export function spanText(span_ms: number): string {
  const minutes = Math.max(0, Math.round(span_ms / 60_000));
  if (minutes < 60) return `${minutes} min`;
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** What a note says, in the order in which one would say it; empty when it says nothing. */
export function saidOf(details: VisitDetails): string {
  const parts = [
    wordOr(details.surface),
    wordOr(details.sound) ?? meterText(details),
    tracksText(details.tracks),
    watchText(details),
    wordOr(details.event),
  ];
  return parts.filter((part) => part !== null).join(' · ');
}

function wordOr(value: string | null | undefined): string | null {
  return value === null || value === undefined ? null : valueWord(value);
}

function meterText({ scratch_per_min }: VisitDetails): string | null {
  if (scratch_per_min === null || scratch_per_min === undefined) return null;
  return `meter: ${scratch_per_min} scratches a minute`;
}

function tracksText(tracks: number | null | undefined): string | null {
  if (tracks === null || tracks === undefined) return null;
  if (tracks === 0) return 'no tracks';
  return tracks === 1 ? '1 track' : `${tracks} tracks`;
}

function watchText({ watched_from, watched_to, emerged }: VisitDetails): string | null {
  if (emerged !== null && emerged !== undefined) {
    return emerged === 0 ? 'watched, none came' : `watched, ${emerged} came`;
  }
  if (watched_from === null || watched_from === undefined) return null;
  return watched_to === null || watched_to === undefined
    ? 'watch begun'
    : /* @wc-include */ 'watched';
}
