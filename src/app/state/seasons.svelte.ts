import type { SeasonEvent } from '../../core/domain/event.ts';
import { addNights } from '../../core/domain/night.ts';
import type { Glance } from '../../core/forecast/glance.ts';
import {
  type EventLog,
  knownOf,
  type LoggedEvent,
  type LogProblem,
  type ReadAhead,
} from '../../core/log/event-log.ts';
import type { FinishedEvents } from '../workers/finished-events.ts';
import { type Clock, SteppedClock } from './clock.svelte.ts';
import type { DeviceSettings, SeasonName } from './device-settings.svelte.ts';
import { eveningOf } from './evening.ts';
import { FinishedSeasons, type FinishedShelf } from './finished-seasons.ts';
import type { Forecaster } from './forecaster.ts';
import type { Glances } from './glances.ts';
import { carriedOver } from './carried-over.ts';
import { SeasonState, type SeasonTools } from './season-state.svelte.ts';

/** A log that could be opened and read, or why not. */
export type OpenedLog =
  | {
      readonly ok: true;
      readonly log: EventLog;
      readonly events: readonly LoggedEvent[];
      /** How many of them, from the first on, were told ahead; undefined = none. */
      readonly told?: number;
      readonly clock: Clock;
    }
  | { readonly ok: false; readonly problem: LogProblem };

/** The seasons on a device, as the wiring opens and erases them. */
export interface SeasonShelf {
  /** `ahead` is told of what the log holds before it is read, where it can be (`EventLog.read`). */
  open(name: SeasonName, ahead: ReadAhead): Promise<OpenedLog>;
  erase(name: SeasonName): Promise<LogProblem | null>;
  readonly finished: FinishedShelf;
  readonly glances: Glances;
}

/** What is on the screen as a whole. */
export type Opened =
  | { readonly state: 'none' }
  | {
      readonly state: 'opening';
      readonly name: SeasonName;
      /** How the odds stood when it was last open; null where that is not known. */
      readonly glance: Glance | null;
    }
  | {
      readonly state: 'ready';
      readonly season: SeasonState;
      readonly finished: FinishedSeasons;
    }
  | { readonly state: 'failed'; readonly name: SeasonName; readonly problem: LogProblem };

export type SharedTools = Omit<
  SeasonTools,
  'name' | 'log' | 'clock' | 'settings' | 'forecaster' | 'glance' | 'glances'
> & {
  /** One for each season: it remembers what it worked out, and learns from the finished ones. */
  readonly newForecaster: (finished: () => Promise<readonly FinishedEvents[]>) => Forecaster;
};

/** The one season that is open out of the two a device may hold: one's own and the invented one. */
export class Seasons {
  readonly #shelf: SeasonShelf;
  readonly #settings: DeviceSettings;
  readonly #tools: SharedTools;
  #opened = $state.raw<Opened>({ state: 'none' });

  constructor(shelf: SeasonShelf, settings: DeviceSettings, tools: SharedTools) {
    this.#shelf = shelf;
    this.#settings = settings;
    this.#tools = tools;
  }

  get opened(): Opened {
    return this.#opened;
  }

  /** The season when one is open. */
  get season(): SeasonState | null {
    return this.#opened.state === 'ready' ? this.#opened.season : null;
  }

  /** The finished seasons beside the one that is open. */
  get finished(): FinishedSeasons | null {
    return this.#opened.state === 'ready' ? this.#opened.finished : null;
  }

  /** Opens a season in place of the one that is open, and remembers it for the next start. */
  async switchSeason(name: SeasonName): Promise<void> {
    const before = this.season;
    if (before?.name === name) return;
    const { glances } = this.#shelf;
    const glance = name === 'own' ? glances.read() : null;
    this.#opened = { state: 'opening', name, glance };
    await before?.close();
    // The worker of the odds starts while the log is read, and takes it in while the record is made.
    const { newForecaster, ...shared } = this.#tools;
    const finished = new FinishedSeasons(this.#shelf.finished, name, shared.fallbackZone);
    const forecaster = newForecaster(() => finished.events());
    const { fallbackZone } = shared;
    const opened = await this.#shelf.open(name, (texts) => {
      forecaster.beginAhead?.(texts, fallbackZone);
    });
    if (!opened.ok) {
      forecaster.close?.();
      this.#opened = { state: 'failed', name, problem: opened.problem };
      return;
    }
    const { log, events, told = 0, clock } = opened;
    // Of the invented season only what has happened by its clock is taken.
    if (name === 'own') {
      const [before, now] = [knownOf(events.slice(0, told)), knownOf(events.slice(told))];
      forecaster.begin?.(before, now, fallbackZone);
    }
    const own = { name, log, clock, settings: this.#settings, forecaster, glance, glances };
    const season = new SeasonState({ ...shared, ...own }, events);
    this.#opened = { state: 'ready', season, finished };
    if (this.#settings.now.season !== name) this.#settings.change({ season: name });
  }

  /** The invented season, some evenings later (earlier when negative), at 19:40. */
  stepEvening(nights: number): void {
    const season = this.season;
    if (season === null || !(season.clock instanceof SteppedClock)) return;
    const night = addNights(season.moment.night, nights);
    season.clock.set(eveningOf(night, season.zone));
    season.showUntilNow();
  }

  /** Takes a season off this device. Null when it is gone; else what went wrong. */
  async erase(name: SeasonName): Promise<LogProblem | null> {
    const open = this.season;
    if (open?.name === name) {
      await open.close();
      this.#opened = { state: 'none' };
    }
    const problem = await this.#shelf.erase(name);
    if (name === 'own') this.#shelf.glances.forget();
    if (problem === null && this.#settings.now.season === name) {
      this.#settings.change({ season: null });
    }
    return problem;
  }

  /**
   * Closes the season that is open and keeps it, read-only, under a title; opens the next one with
   * the same programme and people. Null when that is done; else what went wrong.
   */
  async startNext(title: string): Promise<LogProblem | null> {
    const before = this.season;
    if (before === null) return null;
    const problem = await this.#shelf.finished.close(before.name, title);
    if (problem !== null) return problem;
    this.#shelf.glances.forget();
    const bodies = carriedOver(before.record);
    await this.#reopen(before.name);
    const next = this.season;
    if (next === null) return null; // what went wrong is on the screen
    for (const body of bodies) {
      const written = await next.write(body);
      if (!written.ok) return written.problem;
    }
    return null;
  }

  /** Keeps events as a finished season beside the one that is open, which then learns from it. */
  async keepFinished(title: string, events: readonly SeasonEvent[]): Promise<LogProblem | null> {
    return this.#changeFinished((shelf, of) => shelf.keep(of, title, events));
  }

  /** Takes a finished season off this device for good; nothing is learned from it any more. */
  async removeFinished(id: string): Promise<LogProblem | null> {
    return this.#changeFinished((shelf) => shelf.remove(id));
  }

  async #changeFinished(
    change: (shelf: FinishedShelf, of: SeasonName) => Promise<LogProblem | null>,
  ): Promise<LogProblem | null> {
    const open = this.season;
    if (open === null) return null;
    const problem = await change(this.#shelf.finished, open.name);
    // Opened anew, since the odds are learned from the finished seasons as they were.
    if (problem === null) await this.#reopen(open.name);
    return problem;
  }

  async #reopen(name: SeasonName): Promise<void> {
    await this.season?.close();
    this.#opened = { state: 'none' };
    await this.switchSeason(name);
  }

  /** Goes back to the first offer without erasing anything. */
  async leave(): Promise<void> {
    await this.season?.close();
    this.#opened = { state: 'none' };
  }
}
