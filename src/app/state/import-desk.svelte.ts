import type { ReadSeason } from '../../core/exchange/season-folder/read-season-folder.ts';
import type { Reconciled } from '../../core/exchange/reconcile/reconcile.ts';
import type { DeviceSettings } from './device-settings.svelte.ts';
import type { OpenedFiles } from './file-desk.ts';
import type { SeasonState } from './season-state.svelte.ts';

/** How far an import has come. */
export type ImportStage =
  | { readonly stage: 'waiting' }
  | { readonly stage: 'reading' }
  | { readonly stage: 'refused'; readonly message: string }
  | { readonly stage: 'preview'; readonly read: ReadSeason; readonly joins: Reconciled }
  | { readonly stage: 'taking' }
  | { readonly stage: 'taken'; readonly added: number }
  | { readonly stage: 'failed'; readonly message: string };

/** Brings tables into a season: read, shown, and only then taken. */
export class ImportDesk {
  readonly #season: SeasonState;
  readonly #settings: DeviceSettings;
  #stage = $state.raw<ImportStage>({ stage: 'waiting' });

  constructor(season: SeasonState, settings: DeviceSettings) {
    this.#season = season;
    this.#settings = settings;
  }

  get stage(): ImportStage {
    return this.#stage;
  }

  async look(opening: Promise<OpenedFiles>): Promise<void> {
    this.#stage = { stage: 'reading' };
    try {
      const opened = await opening;
      if (!opened.ok) {
        this.#stage = { stage: 'refused', message: opened.message };
        return;
      }
      const [{ readSeasonFolder }, { reconcile }] = await Promise.all([
        import('../../core/exchange/season-folder/read-season-folder.ts'),
        import('../../core/exchange/reconcile/reconcile.ts'),
      ]);
      const { record, zone, clock } = this.#season;
      const { author, device } = this.#settings.now;
      const who = { author: author ?? '', device, now_ms: clock.read_ms() };
      const into = record.nests.size > 0 ? { into: record } : {};
      const read = readSeasonFolder(opened.files, { ...who, zone, ...into });
      this.#stage = { stage: 'preview', read, joins: reconcile(read, record, who) };
    } catch (error) {
      const said = error instanceof Error ? error.message : String(error);
      this.#stage = { stage: 'refused', message: `The files could not be read: ${said}` };
    }
  }

  /** Takes the good rows of the preview into the season, all or none. */
  async take(): Promise<void> {
    if (this.#stage.stage !== 'preview') return;
    const { events } = this.#stage.joins;
    this.#stage = { stage: 'taking' };
    const taken = await this.#season.take(events.map((event) => ({ state: 'known', event })));
    this.#stage = taken.ok
      ? { stage: 'taken', added: taken.added }
      : { stage: 'failed', message: taken.problem.message };
  }

  startOver(): void {
    this.#stage = { stage: 'waiting' };
  }
}
