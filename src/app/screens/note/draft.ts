import { formatInstant } from '../../../core/domain/instant.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import { wallClock } from '../../../core/domain/night.ts';
import type {
  Experience,
  Instrument,
  Mishap,
  Rain,
  Sound,
  Surface,
  VisitDetails,
  Wind,
} from '../../../core/domain/visit.ts';

/** What was heard; not having listened is an answer too, and not the same as quiet. */
export type Heard = Sound | 'not listened';

/** Dawn patrol or evening round. */
export type NoteKind = 'evening' | 'morning';

/** A note while it is being made; null is "not said". */
export interface Draft {
  readonly nest: NestId | null;
  readonly surface: Surface | null;
  readonly heard: Heard | null;
  /** Hatchling tracks counted at dawn; 0 = looked, saw none. */
  readonly tracks: number | null;
  readonly instrument: Instrument | null;
  readonly wind: Wind | null;
  readonly rain: Rain | null;
  /** Start of a watch that ends with the note. */
  readonly watchedFrom_ms: number | null;
  /** Hatchlings seen coming up in that watch; 0 = watched, none. */
  readonly emerged: number | null;
  readonly mishap: Mishap | null;
}

export const emptyDraft: Draft = {
  nest: null,
  surface: null,
  heard: null,
  tracks: null,
  instrument: null,
  wind: null,
  rain: null,
  watchedFrom_ms: null,
  emerged: null,
  mishap: null,
};

/** From 04:00 to noon a note is of the morning (a dawn patrol; common practice, no source). */
export function kindAt(at_ms: number, zone: string): NoteKind {
  const { minute } = wallClock(at_ms, zone);
  return minute >= 240 && minute < 720 ? 'morning' : 'evening';
}

/**
 * Whether the three answers of a note are all there, so that it saves itself: nest, surface and
 * sound in the evening; nest, surface and tracks at dawn.
 */
export function isComplete(draft: Draft, kind: NoteKind): boolean {
  const third = kind === 'morning' ? draft.tracks : draft.heard;
  return draft.nest !== null && draft.surface !== null && third !== null;
}

/** Whether there is a nest and anything at all to say of it. */
export function isWorthSaving(draft: Draft): boolean {
  return draft.nest !== null && !isBlank(draft);
}

/** Whether nothing has been answered yet, whatever is remembered of wind, rain and instrument. */
export function isBlank(draft: Draft): boolean {
  return (
    draft.surface === null &&
    draft.heard === null &&
    draft.tracks === null &&
    draft.watchedFrom_ms === null &&
    draft.mishap === null
  );
}

/** Who is noting, as the device's settings say. */
export interface Observer {
  readonly name: string | null;
  readonly experience: Experience | null;
}

/**
 * What a draft says, as it goes on record at `at_ms`. A key that was not answered is left out.
 * The instrument belongs to listening, so without it there is none.
 */
export function detailsOf(
  draft: Draft,
  kind: NoteKind,
  observer: Observer,
  at_ms: number,
  zone: string,
): VisitDetails {
  const sound = draft.heard === 'not listened' ? null : draft.heard;
  const watch: Partial<VisitDetails> =
    draft.watchedFrom_ms === null
      ? {}
      : {
          watched_from: formatInstant(draft.watchedFrom_ms, zone),
          watched_to: formatInstant(at_ms, zone),
          ...given('emerged', draft.emerged),
        };
  return {
    kind,
    ...given('observer', observer.name),
    ...given('experience', observer.experience),
    ...given('surface', draft.surface),
    ...given('sound', sound),
    ...given('instrument', sound === null ? null : draft.instrument),
    ...given('wind', draft.wind),
    ...given('rain', draft.rain),
    ...given('tracks', draft.tracks),
    ...given('event', draft.mishap),
    ...watch,
  };
}

function given<Key extends string, Value>(
  key: Key,
  value: Value | null,
): Partial<Record<Key, Value>> {
  const part: Partial<Record<Key, Value>> = {};
  if (value !== null) part[key] = value;
  return part;
}
