import type { EventId } from '../../../core/domain/event.ts';
import { formatInstant } from '../../../core/domain/instant.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import type { VisitDetails } from '../../../core/domain/visit.ts';
import type { Clock } from '../../state/clock.svelte.ts';
import {
  type Draft,
  type Observer,
  detailsOf,
  emptyDraft,
  isBlank,
  isComplete,
  isWorthSaving,
  kindAt,
} from './draft.ts';

/** How long a note can be taken back with one tap. */
export const undo_ms = 60_000;

/** After a note has saved itself, a second tap of the same finger is not the start of the next. */
const settle_ms = 500;

/** What became of writing: the id of the event that is now on the device, or what to do. */
export type Kept =
  { readonly ok: true; readonly id: EventId } | { readonly ok: false; readonly message: string };

/** What a note needs of a season. Each resolves when the store has said that it is kept. */
export interface NoteKeeper {
  /** IANA zone of the season's clocks. */
  zone(): string;
  note(nest: NestId, details: VisitDetails, at_ms: number): Promise<Kept>;
  correct(target: EventId, changes: Readonly<Record<string, unknown>>): Promise<Kept>;
  withdraw(target: EventId): Promise<Kept>;
}

/** A note as it was said, whether kept or not. */
export interface SaidNote {
  readonly nest: NestId;
  readonly details: VisitDetails;
  readonly at_ms: number;
}

export interface SavedNote extends SaidNote {
  readonly id: EventId;
  /** Until when one tap takes it back. */
  readonly until_ms: number;
}

export interface UnsavedNote extends SaidNote {
  readonly message: string;
}

/**
 * The note that is being made, those the device could not keep, and those that can still be taken
 * back. One for each season that is open, so that leaving the screen loses nothing.
 */
export class NoteDesk {
  readonly #keeper: NoteKeeper;
  readonly #clock: Clock;
  readonly #observer: () => Observer;
  #draft = $state.raw<Draft>(emptyDraft);
  #waiting = $state.raw<readonly SaidNote[]>([]);
  #unsaved = $state.raw<readonly UnsavedNote[]>([]);
  #saved = $state.raw<readonly SavedNote[]>([]);
  #trouble = $state.raw<string | null>(null);
  #settled_ms = 0;

  constructor(keeper: NoteKeeper, clock: Clock, observer: () => Observer) {
    this.#keeper = keeper;
    this.#clock = clock;
    this.#observer = observer;
  }

  get draft(): Draft {
    return this.#draft;
  }

  /** Notes handed to the device and not yet answered for. */
  get waiting(): readonly SaidNote[] {
    return this.#waiting;
  }

  /** Notes that the device could not keep, with what to do. */
  get unsaved(): readonly UnsavedNote[] {
    return this.#unsaved;
  }

  /** Notes of this visit to the screen, oldest first; `until_ms` says which can be taken back. */
  get saved(): readonly SavedNote[] {
    return this.#saved;
  }

  /** Why the last undo or end of a watch did not hold; null when it did. */
  get trouble(): string | null {
    return this.#trouble;
  }

  get isWorthSaving(): boolean {
    return isWorthSaving(this.#draft);
  }

  /** Answers one question. The last of the three answers saves the note. */
  async choose(answer: Partial<Draft>): Promise<void> {
    if (this.#clock.read_ms() < this.#settled_ms) return;
    this.#draft = { ...this.#draft, ...answer };
    if (isComplete(this.#draft, this.#kind())) await this.save();
  }

  /** Answers without saving, whatever is complete: for counters and for what is remembered. */
  add(answer: Partial<Draft>): void {
    this.#draft = { ...this.#draft, ...answer };
  }

  /** Forgets what was answered; nothing of it was saved. */
  clear(): void {
    this.#draft = this.#rested();
  }

  /** Saves what has been answered so far. Without a nest or an answer nothing happens. */
  async save(): Promise<void> {
    const { nest } = this.#draft;
    if (nest === null || isBlank(this.#draft)) return;
    const at_ms = this.#clock.read_ms();
    const zone = this.#keeper.zone();
    const details = detailsOf(this.#draft, this.#kind(), this.#observer(), at_ms, zone);
    this.#begin();
    await this.#keep({ nest, details, at_ms });
  }

  /** Begins a watch at the chosen nest now, with what has been seen and heard so far. */
  async startWatch(): Promise<void> {
    const { nest } = this.#draft;
    if (nest === null) return;
    const at_ms = this.#clock.read_ms();
    const zone = this.#keeper.zone();
    const draft: Draft = { ...this.#draft, watchedFrom_ms: null, emerged: null };
    const details = {
      ...detailsOf(draft, this.#kind(), this.#observer(), at_ms, zone),
      watched_from: formatInstant(at_ms, zone),
    };
    this.#begin();
    await this.#keep({ nest, details, at_ms });
  }

  /** Ends a watch now; `emerged` hatchlings were seen coming up, 0 = none. */
  async endWatch(note: EventId, emerged: number): Promise<boolean> {
    const watched_to = formatInstant(this.#clock.read_ms(), this.#keeper.zone());
    return this.#amend(this.#keeper.correct(note, { watched_to, emerged }));
  }

  /** Tries once more to save a note that the device could not keep. */
  async retry(note: UnsavedNote): Promise<void> {
    this.#unsaved = this.#unsaved.filter((other) => other !== note);
    await this.#keep({ nest: note.nest, details: note.details, at_ms: note.at_ms });
  }

  /** Lets go of a note that was never saved. */
  discard(note: UnsavedNote): void {
    this.#unsaved = this.#unsaved.filter((other) => other !== note);
  }

  /** Takes a saved note back. It stays in the history as withdrawn. */
  async undo(note: SavedNote): Promise<boolean> {
    const undone = await this.#amend(this.#keeper.withdraw(note.id));
    if (undone) this.#saved = this.#saved.filter((other) => other.id !== note.id);
    return undone;
  }

  #kind() {
    return kindAt(this.#clock.read_ms(), this.#keeper.zone());
  }

  /** Makes room for the next note; the weather and the instrument stay as they were. */
  #begin(): void {
    this.#draft = this.#rested();
    this.#settled_ms = this.#clock.read_ms() + settle_ms;
    this.#trouble = null;
  }

  #rested(): Draft {
    const { instrument, wind, rain } = this.#draft;
    return { ...emptyDraft, instrument, wind, rain };
  }

  async #keep(note: SaidNote): Promise<void> {
    this.#waiting = [...this.#waiting, note];
    const kept = await settled(this.#keeper.note(note.nest, note.details, note.at_ms));
    this.#waiting = this.#waiting.filter((other) => other !== note);
    if (kept.ok) {
      const until_ms = this.#clock.read_ms() + undo_ms;
      this.#saved = [...this.#saved, { ...note, id: kept.id, until_ms }];
    } else {
      this.#unsaved = [...this.#unsaved, { ...note, message: kept.message }];
    }
  }

  async #amend(writing: Promise<Kept>): Promise<boolean> {
    const kept = await settled(writing);
    this.#trouble = kept.ok ? null : kept.message;
    return kept.ok;
  }
}

/** A store that throws has kept nothing as far as anyone knows: that is said like any other failure. */
async function settled(writing: Promise<Kept>): Promise<Kept> {
  try {
    return await writing;
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    return {
      ok: false,
      message: `The device did not keep it (${why}). Try again; if that fails, reload the page.`,
    };
  }
}
