import type { SeasonEvent } from '../../core/domain/event.ts';
import type { LogProblem } from '../../core/log/event-log.ts';
import { type SeasonInShort, seasonInShort } from '../../core/season-report/season-in-short.ts';
import { fold } from '../../core/log/fold.ts';
import type { FinishedEvents } from '../workers/finished-events.ts';
import type { SeasonName } from './device-settings.svelte.ts';

/** A season that was closed: read, never written to. */
export interface FinishedSeason {
  /** Under which the device keeps it. */
  readonly id: string;
  readonly title: string;
  readonly events: readonly SeasonEvent[];
}

export type FinishedRead =
  | { readonly ok: true; readonly seasons: readonly FinishedSeason[] }
  | { readonly ok: false; readonly problem: LogProblem };

/** The finished seasons of a device, as the wiring keeps them. What fails gives its problem. */
export interface FinishedShelf {
  read(of: SeasonName): Promise<FinishedRead>;
  /** Keeps events as a finished season under a title. */
  keep(of: SeasonName, title: string, events: readonly SeasonEvent[]): Promise<LogProblem | null>;
  remove(id: string): Promise<LogProblem | null>;
  /** Makes the season that is written to now a finished one; the next begins empty. */
  close(of: SeasonName, title: string): Promise<LogProblem | null>;
}

/** One line of the list. */
export interface FinishedLine {
  readonly id: string;
  readonly title: string;
  readonly short: SeasonInShort;
}

/** The finished seasons beside one that is open: read once, when somebody asks. */
export class FinishedSeasons {
  readonly #shelf: FinishedShelf;
  readonly #of: SeasonName;
  readonly #fallbackZone: string;
  #reading: Promise<FinishedRead> | null = null;

  constructor(shelf: FinishedShelf, of: SeasonName, fallbackZone: string) {
    this.#shelf = shelf;
    this.#of = of;
    this.#fallbackZone = fallbackZone;
  }

  /** For the calculations. Rejects, with a message for the person, when they cannot be read. */
  async events(): Promise<readonly FinishedEvents[]> {
    const seasons = await this.#seasons();
    return seasons.map(({ events }) => ({ events, zone: this.#fallbackZone }));
  }

  /** For the list. Rejects as `events` does. */
  async lines(): Promise<readonly FinishedLine[]> {
    const seasons = await this.#seasons();
    return seasons.map(({ id, title, events }) => ({
      id,
      title,
      short: seasonInShort(fold(events, this.#fallbackZone)),
    }));
  }

  async #seasons(): Promise<readonly FinishedSeason[]> {
    this.#reading ??= this.#shelf.read(this.#of);
    const read = await this.#reading;
    if (read.ok) return read.seasons;
    this.#reading = null;
    throw new Error(read.problem.message);
  }
}
