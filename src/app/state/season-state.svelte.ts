/**
 * What a screen needs to know to plug in
 * --------------------------------------
 * A screen is a component in `screens/<name>/`, drawn by `screens/shell/Screen.svelte` for its route
 * (`state/route.ts`), with the route's own values as props: Nest gets `{ nest, part }`, Note gets
 * `{ nest }` (null = still to be chosen). Everything else comes from two functions of
 * `state/context.ts`, called while the component starts:
 *
 *   const season = useSeason();   // this class; the season that is open
 *   const app = useApp();         // router, settings, dayOrDark, notices, forecaster (state/app.ts)
 *
 * Reading (all of it reactive):
 *   season.people        who is on the list of people, by name
 *   season.record        SeasonRecord: nests, notes, people; as of `season.clock` for the invented one
 *   season.zone          IANA zone for every time that is shown
 *   season.forecast      SeasonForecast | null (null until the first one is there)
 *   season.glance        how the odds stood when it was last open, until there is a forecast
 *   season.working       true while a newer forecast is being made
 *   season.moment        the night asked about and the instant, follows the clock by the minute
 *   season.clock         now_ms (reactive, by the minute), read_ms() (exact)
 *   season.isInvented    say "Invented season" wherever this is true (the shell's header does)
 *   season.undoable      what can still be undone, with `until_ms` on `season.clock`; null when nothing
 *   season.why(nest)     Promise of Reasons; season.restOfNight(nest) likewise (null: not on record)
 *   app.settings.now     author, experience, instrument, lastNest ...; app.settings.change({ ... })
 *   app.dayOrDark.isDark no text, date, select or file input may be in the page while true
 *
 * Writing (each waits until the event is on the device; `{ ok: false, problem }` says what to do,
 * nothing was saved then, and what was entered must stay on the screen):
 *   season.note(nest, details, at_ms?)        a visit; observer, experience and kind are filled in
 *   season.registerNest(nest, details)        a new nest
 *   season.write(body, at_ms?)                any other event of core/domain/event.ts
 *   season.correct(event, changes, reason?)   changes by field name; null = not known after all
 *   season.withdraw(event, reason?)           takes an event out; it stays in the history
 *   season.undo()                             withdraws what `undoable` names
 *   season.take(events)                       events from an import or a backup
 *   season.takePiece(events), season.settle() the same in many pieces: they count when it settles
 */
import type { EventId, SeasonEvent } from '../../core/domain/event.ts';
import type { NestDetails, NestId } from '../../core/domain/nest.ts';
import { type Night, wallClock } from '../../core/domain/night.ts';
import type { VisitDetails } from '../../core/domain/visit.ts';
import type { Moment, Reason, SeasonForecast } from '../../core/forecast/forecast.ts';
import { type Glance, glanceOf } from '../../core/forecast/glance.ts';
import type { RestOfNight } from '../../core/forecast/rest-of-night.ts';
import {
  type EventLog,
  idOf,
  knownOf,
  type LoggedEvent,
  type LogProblem,
} from '../../core/log/event-log.ts';
import { fold, foldOn } from '../../core/log/fold.ts';
import { compareNames } from '../../core/domain/locale.ts';
import type { SeasonRecord } from '../../core/log/season-record.ts';
import { type EventBody, tryWriteEvent } from '../../core/log/write-event.ts';
import { writtenAfter_ms } from '../../core/log/written-after.ts';
import type { ArchiveInShort, Learned } from '../workers/learned.ts';
import type { Clock } from './clock.svelte.ts';
import type { DeviceSettings, SeasonName } from './device-settings.svelte.ts';
import { momentAt } from './evening.ts';
import type { Forecaster } from './forecaster.ts';
import type { Glances } from './glances.ts';
import { isKnownAt } from './known-at.ts';

export type Written =
  | { readonly ok: true; readonly id: EventId }
  | { readonly ok: false; readonly problem: LogProblem };

export type Taken =
  | { readonly ok: true; readonly added: number }
  | { readonly ok: false; readonly problem: LogProblem };

/** The note that was just made, and until when (on the season's clock) it is offered to undo it. */
export interface Undoable {
  readonly id: EventId;
  readonly nest: NestId;
  readonly until_ms: number;
}

/** How long a note can be undone on the spot; after that it can be corrected. */
export const undo_ms = 60_000;

/** What comes in many pieces is worked into the screens this often: each time costs a whole forecast. */
const betweenPieces_ms = 5_000;

export interface SeasonTools {
  readonly name: SeasonName;
  readonly log: EventLog;
  readonly clock: Clock;
  readonly settings: DeviceSettings;
  readonly forecaster: Forecaster;
  /** How the odds stood when this season was last open; shown until they are worked out. */
  readonly glance?: Glance | null;
  /** Where the odds are kept in short, unless the season is the invented one. */
  readonly glances?: Pick<Glances, 'keep'>;
  /** 16 random bytes for the id of an event. */
  readonly random: () => Uint8Array;
  /** The device's own IANA zone, until a programme names one. */
  readonly fallbackZone: string;
  /** Told when the log could not be read after it was opened, or the forecast could not be made; `reload`: only a new start of the page helps. */
  readonly trouble: (subject: 'record' | 'forecast', message: string, reload: boolean) => void;
}

/** One season while the app is open: the log, what follows from it, and the verbs that add to it. */
export class SeasonState {
  readonly name: SeasonName;
  readonly clock: Clock;
  readonly #tools: SeasonTools;
  readonly #stopWatching: () => void;
  // eslint-disable-next-line svelte/prefer-svelte-reactivity -- nothing draws from it; `#record` is what is drawn
  readonly #held = new Map<string, LoggedEvent>();
  /** Events that are held and do not count yet. */
  #pieces: SeasonEvent[] = [];
  #settled_ms = -Infinity;
  #stale = false;
  #improving = false;
  /** What was last kept of the odds. */
  #glanced: { readonly record: SeasonRecord; readonly night: Night } | null = null;
  #isClosed = false;
  #foreign = $state.raw(0);
  #record: SeasonRecord;
  #forecast = $state.raw<SeasonForecast | null>(null);
  #working = $state.raw(false);
  #undoable = $state.raw<Undoable | null>(null);
  #archive = $state.raw<ArchiveInShort | null>(null);
  /** The latest instant of the events that are in `#record`; only the invented season holds any back. */
  #shownUntil_ms = Infinity;

  readonly moment: Moment = $derived.by(() => momentAt(this.clock.now_ms, this.#record.zone));
  /** Everybody on the list of people, by name. */
  readonly people = $derived(
    [...this.record.volunteers].sort((a, b) => compareNames(a.fact.volunteer, b.fact.volunteer)),
  );

  /** `logged` is what `log.read()` gave. */
  constructor(tools: SeasonTools, logged: readonly LoggedEvent[]) {
    this.#tools = tools;
    this.name = tools.name;
    this.clock = tools.clock;
    this.#hold(logged);
    if (this.isInvented) this.#shownUntil_ms = tools.clock.read_ms();
    this.#record = $state.raw(fold(this.#shown(knownOf(this.held())), tools.fallbackZone));
    this.#stopWatching = tools.log.watch(() => void this.refresh());
  }

  get isInvented(): boolean {
    return this.name === 'invented';
  }

  get record(): SeasonRecord {
    return this.#record;
  }

  get zone(): string {
    return this.#record.zone;
  }

  get forecast(): SeasonForecast | null {
    return this.#forecast;
  }

  /** How the odds stood when this season was last open; null where that is not known. */
  get glance(): Glance | null {
    return this.#tools.glance ?? null;
  }

  get working(): boolean {
    return this.#working;
  }

  get undoable(): Undoable | null {
    return this.#undoable;
  }

  /** Events on this device that this version of the app cannot read; they are kept. */
  get foreign(): number {
    return this.#foreign;
  }

  /** Works out the odds at the moment as it is; called by the shell when record or moment change. */
  async reckon(): Promise<void> {
    this.#stale = true;
    if (this.#working) return;
    this.#working = true;
    try {
      while (this.#stale) {
        this.#stale = false;
        const moment = this.#exactMoment();
        const record = this.#record;
        this.#forecast = await this.#tools.forecaster.forecast(record, moment);
        this.#keepGlance(this.#forecast, record);
      }
    } catch (error) {
      this.#tools.trouble('forecast', `The odds could not be worked out: ${saidBy(error)}`, false);
      return;
    } finally {
      this.#working = false;
    }
    void this.#improve();
  }

  /** Keeps what the next opening shows at once; not for a change by the clock alone. */
  #keepGlance(forecast: SeasonForecast, record: SeasonRecord): void {
    const { glances } = this.#tools;
    const { night } = forecast.moment;
    if (this.isInvented || this.#isClosed || glances === undefined) return;
    if (this.#glanced?.record === record && this.#glanced.night === night) return;
    this.#glanced = { record, night };
    glances.keep(glanceOf(forecast, record));
  }

  /** Lets better odds take the place of those that were quick to have, once they are there. */
  async #improve(): Promise<void> {
    const { forecaster, trouble } = this.#tools;
    if (this.#improving || this.#isClosed) return;
    this.#improving = true;
    let isBetter = false;
    try {
      isBetter = (await forecaster.improve?.(this.#record, this.#exactMoment())) ?? false;
    } catch (error) {
      const message = `The cues could not be learned from this record: ${saidBy(error)} The odds shown go by the standard ones.`;
      trouble('forecast', message, false);
    } finally {
      this.#improving = false;
    }
    this.#archive = forecaster.archive ?? null;
    if (!isBetter) return;
    this.#glanced = null;
    await this.reckon();
  }

  /** What finished seasons taught the odds that are shown; null when there are none, or not yet. */
  get archive(): ArchiveInShort | null {
    return this.#archive;
  }

  /** What the record taught by this evening, beside what was assumed before; null: nothing does so. */
  learned(): Promise<Learned> | null {
    return this.#tools.forecaster.learned?.(this.#record, this.#exactMoment()) ?? null;
  }

  why(nest: NestId): Promise<readonly Reason[]> {
    return this.#tools.forecaster.why(this.#record, this.#exactMoment(), nest);
  }

  restOfNight(nest: NestId): Promise<RestOfNight | null> {
    return this.#tools.forecaster.restOfNight(this.#record, this.#exactMoment(), nest);
  }

  /** Notes what was seen and heard at a nest, now unless `at_ms` says when. Can be undone for a minute. */
  async note(nest: NestId, details: VisitDetails, at_ms = this.clock.read_ms()): Promise<Written> {
    const { author, experience } = this.#tools.settings.now;
    const body: EventBody = {
      kind: 'visit-noted',
      nest,
      details: {
        kind: halfOf(at_ms, this.zone),
        ...(author === null ? {} : { observer: author }),
        ...(experience === null ? {} : { experience }),
        ...details,
      },
    };
    const written = await this.write(body, at_ms);
    if (written.ok) this.#offerUndo(written.id, nest);
    return written;
  }

  registerNest(nest: NestId, details: NestDetails): Promise<Written> {
    return this.write({ kind: 'nest-registered', nest, details });
  }

  correct(
    target: EventId,
    changes: Readonly<Record<string, unknown>>,
    reason?: string,
  ): Promise<Written> {
    const why = reason === undefined ? {} : { reason };
    return this.write({ kind: 'corrected', target, changes: { ...changes }, ...why });
  }

  withdraw(target: EventId, reason?: string): Promise<Written> {
    const why = reason === undefined ? {} : { reason };
    return this.write({ kind: 'withdrawn', target, ...why });
  }

  /** Withdraws the note that was just made. Ok with nothing to undo is not possible: ask `undoable`. */
  async undo(): Promise<Written> {
    const last = this.#undoable;
    if (last === null) {
      const message = 'There is nothing left to undo. Correct the note on its nest’s screen.';
      return { ok: false, problem: { kind: 'failed', message } };
    }
    const written = await this.withdraw(last.id, 'undone');
    if (written.ok) this.#undoable = null;
    return written;
  }

  forgetUndo(): void {
    this.#undoable = null;
  }

  /** Stamps an event, waits until it is on the device, and lets it count. */
  async write(body: EventBody, at_ms = this.clock.read_ms()): Promise<Written> {
    const { author, device } = this.#tools.settings.now;
    const written = tryWriteEvent(body, {
      now_ms: writtenAfter_ms(this.#record, body, this.clock.read_ms()),
      at_ms,
      random: this.#tools.random(),
      author: author ?? '',
      device,
      zone: this.zone,
    });
    if (!written.ok) {
      const message = `${written.field}: expected ${written.message}. Nothing was saved; correct it and save again.`;
      return { ok: false, problem: { kind: 'failed', message } };
    }
    const taken = await this.take([written]);
    return taken.ok ? { ok: true, id: written.event.id } : taken;
  }

  /** Adds events that are already whole: from an import, a backup. All or none. */
  async take(logged: readonly LoggedEvent[]): Promise<Taken> {
    const taken = await this.#keep(logged);
    if (taken.ok) this.settle();
    return taken;
  }

  /**
   * As `take`, for one of many pieces: it is on the device at once, and counts on the screens in a
   * while, or when `settle` is called after the last one.
   */
  async takePiece(logged: readonly LoggedEvent[]): Promise<Taken> {
    const taken = await this.#keep(logged);
    const isDue = this.clock.read_ms() - this.#settled_ms >= betweenPieces_ms;
    if (taken.ok && isDue) this.settle();
    return taken;
  }

  /** Lets all pieces count that were taken. */
  settle(): void {
    const pieces = this.#pieces;
    this.#pieces = [];
    this.#settled_ms = this.clock.read_ms();
    this.#add(pieces);
  }

  /** Takes in what another tab has added to the log. */
  async refresh(): Promise<void> {
    const read = await this.#tools.log.read();
    if (!read.ok) {
      const { kind, message } = read.problem;
      this.#tools.trouble('record', message, kind === 'outdated' || kind === 'closed');
      return;
    }
    this.#hold(read.events);
    this.#add(knownOf(read.events));
  }

  /** Everything that this season holds by now, also what it cannot read; the device is not asked. */
  held(): readonly LoggedEvent[] {
    return [...this.#held.values()];
  }

  /** Everything in the log as it lies there, for a backup. */
  readAll(): ReturnType<EventLog['read']> {
    return this.#tools.log.read();
  }

  /** Shows the invented season as it stood at the clock's hour: call after the clock was set. */
  showUntilNow(): void {
    if (!this.isInvented) return;
    this.#shownUntil_ms = this.clock.read_ms();
    this.#undoable = null;
    this.#record = fold(this.#shown(knownOf(this.held())), this.#tools.fallbackZone);
  }

  async close(): Promise<void> {
    this.#isClosed = true;
    this.#stopWatching();
    this.#tools.forecaster.close?.();
    await this.#tools.log.close();
  }

  /** Puts events on the device; they count once they are settled. */
  async #keep(logged: readonly LoggedEvent[]): Promise<Taken> {
    const appended = await this.#tools.log.append(logged);
    if (!appended.ok) return appended;
    this.#hold(logged);
    for (const event of knownOf(logged)) this.#pieces.push(event);
    return appended;
  }

  #hold(logged: readonly LoggedEvent[]): void {
    for (const entry of logged) {
      if (this.#held.has(idOf(entry))) continue;
      this.#held.set(idOf(entry), entry);
      if (entry.state === 'foreign') this.#foreign += 1;
    }
  }

  #add(events: readonly SeasonEvent[]): void {
    const fresh = events.filter((event) => !this.#record.events.has(event.id));
    if (fresh.length === 0) return;
    if (this.isInvented) this.#shownUntil_ms = this.clock.read_ms();
    this.#record = foldOn(this.#record, this.#shown(fresh), this.#tools.fallbackZone);
  }

  #shown(events: Iterable<SeasonEvent>): Iterable<SeasonEvent> {
    if (this.#shownUntil_ms === Infinity) return events;
    return [...events].filter((event) => isKnownAt(event, this.#shownUntil_ms));
  }

  /** The moment to the millisecond, so that a note made a second ago counts. */
  #exactMoment(): Moment {
    return momentAt(this.clock.read_ms(), this.#record.zone);
  }

  #offerUndo(id: EventId, nest: NestId): void {
    this.#undoable = { id, nest, until_ms: this.clock.read_ms() + undo_ms };
    setTimeout(() => {
      if (this.#undoable?.id === id) this.#undoable = null;
    }, undo_ms);
  }
}

/** A look between 04:00 and noon is a morning visit (as the record reads one that does not say). */
function halfOf(at_ms: number, zone: string): 'evening' | 'morning' {
  const { minute } = wallClock(at_ms, zone);
  return minute >= 240 && minute < 720 ? 'morning' : 'evening';
}

function saidBy(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
