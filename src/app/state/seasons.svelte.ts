import { addNights } from '../../core/domain/night.ts';
import type { EventLog, LoggedEvent, LogProblem } from '../../core/log/event-log.ts';
import { type Clock, SteppedClock } from './clock.svelte.ts';
import type { DeviceSettings, SeasonName } from './device-settings.svelte.ts';
import { eveningOf } from './evening.ts';
import type { Forecaster } from './forecaster.ts';
import { SeasonState, type SeasonTools } from './season-state.svelte.ts';

/** A log that could be opened and read, or why not. */
export type OpenedLog =
  | {
      readonly ok: true;
      readonly log: EventLog;
      readonly events: readonly LoggedEvent[];
      readonly clock: Clock;
    }
  | { readonly ok: false; readonly problem: LogProblem };

/** The seasons on a device, as the wiring opens and erases them. */
export interface SeasonShelf {
  open(name: SeasonName): Promise<OpenedLog>;
  erase(name: SeasonName): Promise<LogProblem | null>;
}

/** What is on the screen as a whole. */
export type Opened =
  | { readonly state: 'none' }
  | { readonly state: 'opening'; readonly name: SeasonName }
  | { readonly state: 'ready'; readonly season: SeasonState }
  | { readonly state: 'failed'; readonly name: SeasonName; readonly problem: LogProblem };

export type SharedTools = Omit<
  SeasonTools,
  'name' | 'log' | 'clock' | 'settings' | 'forecaster'
> & {
  /** One for each season: it remembers what it worked out. */
  readonly newForecaster: () => Forecaster;
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

  /** Opens a season in place of the one that is open, and remembers it for the next start. */
  async switchSeason(name: SeasonName): Promise<void> {
    const before = this.season;
    if (before?.name === name) return;
    this.#opened = { state: 'opening', name };
    await before?.close();
    const opened = await this.#shelf.open(name);
    if (!opened.ok) {
      this.#opened = { state: 'failed', name, problem: opened.problem };
      return;
    }
    const { log, events, clock } = opened;
    const { newForecaster, ...shared } = this.#tools;
    const own = { name, log, clock, settings: this.#settings, forecaster: newForecaster() };
    const season = new SeasonState({ ...shared, ...own }, events);
    this.#opened = { state: 'ready', season };
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
    if (problem === null && this.#settings.now.season === name) {
      this.#settings.change({ season: null });
    }
    return problem;
  }

  /** Goes back to the first offer without erasing anything. */
  async leave(): Promise<void> {
    await this.season?.close();
    this.#opened = { state: 'none' };
  }
}
