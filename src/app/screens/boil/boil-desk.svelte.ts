import type { EventId } from '../../../core/domain/event.ts';
import { formatInstant, parseInstant } from '../../../core/domain/instant.ts';
import type { NestId } from '../../../core/domain/nest.ts';
import type { Counting, Emergence, VisitDetails } from '../../../core/domain/visit.ts';
import type { SeasonState, Written } from '../../state/season-state.svelte.ts';
import { openCount } from './open-count.ts';

/** How long a change may wait before it is on the device; a boil brings several taps a second. */
const saveEvery_ms = 8000;

/** What is counted besides those that come up. */
export const fates = ['reached_water', 'astray', 'taken'] as const;
export type Fate = (typeof fates)[number];

/** What the device has of a count. */
export type Saved = 'nothing yet' | 'saving' | 'saved' | 'not yet saved';

/**
 * The count of one boil by one person. The first tap puts a note on the device, later ones correct it
 * every few seconds, so that a dead battery takes little with it. It outlives the screen, and after a new
 * start of the page goes on from what is on the device.
 */
export class BoilDesk {
  readonly nest: NestId;
  readonly #season: SeasonState;
  #keeping: Promise<boolean> = Promise.resolve(true);
  #note = $state.raw<EventId | null>(null);
  #taps = $state.raw<readonly number[]>([]);
  #emerged = $state.raw(0);
  #fates = $state.raw<Readonly<Record<Fate, number | null>>>(noFates);
  #emergence = $state.raw<Emergence>('boil');
  #counting = $state.raw<Counting>('part');
  #first_ms = $state.raw<number | null>(null);
  #last_ms = $state.raw<number | null>(null);
  #saved = $state.raw<Saved>('nothing yet');
  #trouble = $state.raw<string | null>(null);
  #isDirty = false;
  #timer: ReturnType<typeof setTimeout> | null = null;

  constructor(season: SeasonState, nest: NestId, author: string | null, emergence: Emergence) {
    this.#season = season;
    this.nest = nest;
    this.#emergence = emergence;
    const open = openCount(season.record, nest, author, season.clock.read_ms());
    if (open !== null) this.#resume(open.note, open.details);
  }

  /** The note that the count is kept in; null before the first tap is on the device. */
  get note(): EventId | null {
    return this.#note;
  }

  get emerged(): number {
    return this.#emerged;
  }

  get emergence(): Emergence {
    return this.#emergence;
  }

  get counting(): Counting {
    return this.#counting;
  }

  get first_ms(): number | null {
    return this.#first_ms;
  }

  get last_ms(): number | null {
    return this.#last_ms;
  }

  get saved(): Saved {
    return this.#saved;
  }

  /** Why the last saving did not hold; null when it did. */
  get trouble(): string | null {
    return this.#trouble;
  }

  get isRunning(): boolean {
    return this.#first_ms !== null;
  }

  get canUndo(): boolean {
    return this.#taps.length > 0;
  }

  fate(fate: Fate): number | null {
    return this.#fates[fate];
  }

  /** So many came up just now. */
  tap(by: 1 | 5): void {
    const now_ms = this.#season.clock.read_ms();
    this.#first_ms ??= now_ms;
    this.#last_ms = now_ms;
    this.#taps = [...this.#taps, by];
    this.#emerged += by;
    this.#changed();
  }

  /** Takes the last tap back, whatever it was worth. */
  undo(): void {
    const last = this.#taps.at(-1);
    if (last === undefined) return;
    this.#taps = this.#taps.slice(0, -1);
    this.#emerged = Math.max(0, this.#emerged - last);
    this.#changed();
  }

  setFate(fate: Fate, count: number | null): void {
    this.#fates = { ...this.#fates, [fate]: count };
    this.#changed();
  }

  setEmergence(emergence: Emergence): void {
    this.#emergence = emergence;
    this.#changed();
  }

  setCounting(counting: Counting): void {
    this.#counting = counting;
    this.#changed();
  }

  /** Puts the count on the device now. */
  async save(): Promise<boolean> {
    return this.#keep(this.#details());
  }

  /** Ends the count: true when all of it is on the device and a new one may begin. */
  async end(): Promise<boolean> {
    // What is being kept must be known first: else it would be kept a second time, as another note.
    await this.#keeping;
    const zone = this.#season.zone;
    const to_ms = this.#season.clock.read_ms();
    const note = this.#note;
    const isKept =
      this.#emerged === 0 && note !== null
        ? this.#told(await this.#season.withdraw(note, 'nothing was counted'))
        : await this.#keep({ ...this.#details(), watched_to: formatInstant(to_ms, zone) });
    if (!isKept) return false;
    this.#stopTimer();
    this.#note = null;
    this.#taps = [];
    this.#emerged = 0;
    this.#fates = noFates;
    this.#first_ms = null;
    this.#last_ms = null;
    this.#saved = 'nothing yet';
    this.#isDirty = false;
    return true;
  }

  #resume(note: EventId, details: VisitDetails): void {
    this.#note = note;
    this.#emerged = details.emerged ?? 0;
    this.#fates = {
      reached_water: details.reached_water ?? null,
      astray: details.astray ?? null,
      taken: details.taken ?? null,
    };
    this.#emergence = details.emergence ?? 'boil';
    this.#counting = details.counting ?? 'part';
    this.#first_ms = parseInstant(details.first_out ?? '');
    this.#last_ms = parseInstant(details.last_out ?? '');
    this.#saved = 'saved';
  }

  #details(): VisitDetails {
    const zone = this.#season.zone;
    const time = (at_ms: number | null) => (at_ms === null ? null : formatInstant(at_ms, zone));
    return {
      emergence: this.#emergence,
      counting: this.#counting,
      emerged: this.#emerged,
      watched_from: time(this.#first_ms),
      first_out: time(this.#first_ms),
      last_out: time(this.#last_ms),
      ...this.#fates,
    };
  }

  #changed(): void {
    // Before the first hatchling there is nothing to keep.
    if (this.#first_ms === null) return;
    this.#isDirty = true;
    if (this.#saved === 'saving') return;
    if (this.#note === null) void this.save();
    else {
      this.#saved = 'not yet saved';
      this.#timer ??= setTimeout(() => void this.save(), saveEvery_ms);
    }
  }

  #keep(details: VisitDetails): Promise<boolean> {
    this.#keeping = this.#keepNow(details);
    return this.#keeping;
  }

  async #keepNow(details: VisitDetails): Promise<boolean> {
    this.#stopTimer();
    this.#isDirty = false;
    this.#saved = 'saving';
    const note = this.#note;
    const written =
      note === null
        ? await this.#season.note(this.nest, details, this.#first_ms ?? undefined)
        : await this.#season.correct(note, details);
    if (written.ok && note === null) {
      this.#note = written.id;
      this.#season.forgetUndo();
    }
    this.#told(written);
    const isAllKept = written.ok && !this.#hasChanged();
    this.#saved = isAllKept ? 'saved' : 'not yet saved';
    if (!isAllKept) this.#timer = setTimeout(() => void this.save(), saveEvery_ms);
    return written.ok;
  }

  /** Whether something was counted while the device was busy keeping what came before. */
  #hasChanged(): boolean {
    return this.#isDirty;
  }

  #told(written: Written): boolean {
    this.#trouble = written.ok ? null : written.problem.message;
    return written.ok;
  }

  #stopTimer(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }
}

const noFates = { reached_water: null, astray: null, taken: null };
