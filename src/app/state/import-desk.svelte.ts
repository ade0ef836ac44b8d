import type { ReadSeason } from '../../core/exchange/season-folder/read-season-folder.ts';
import type { Reconciled } from '../../core/exchange/reconcile/reconcile.ts';
import type { DeviceSettings } from './device-settings.svelte.ts';
import type { OpenedFiles } from './file-desk.ts';
import type { MappingMemory } from './mapping-memory.ts';
import type { MatchDesk } from './match-desk.svelte.ts';
import type { SeasonState } from './season-state.svelte.ts';

/** How far an import has come. */
export type ImportStage =
  | { readonly stage: 'waiting' }
  | { readonly stage: 'reading' }
  | { readonly stage: 'refused'; readonly message: string }
  /** Tables in other words than ours: their columns are matched first. */
  | { readonly stage: 'matching'; readonly match: MatchDesk }
  | {
      readonly stage: 'preview';
      readonly read: ReadSeason;
      readonly joins: Reconciled;
      /** The matching it came from, to go back to. */
      readonly match: MatchDesk | null;
    }
  | { readonly stage: 'taking' }
  | { readonly stage: 'taken'; readonly added: number }
  | { readonly stage: 'failed'; readonly message: string };

/** Brings tables into a season: read, shown, and only then taken. */
export class ImportDesk {
  readonly #season: SeasonState;
  readonly #settings: DeviceSettings;
  readonly #mappings: () => Promise<MappingMemory>;
  #stage = $state.raw<ImportStage>({ stage: 'waiting' });

  constructor(
    season: SeasonState,
    settings: DeviceSettings,
    mappings: () => Promise<MappingMemory>,
  ) {
    this.#season = season;
    this.#settings = settings;
    this.#mappings = mappings;
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
      const [{ readSeasonFolder }, { findSheets }] = await Promise.all([
        import('../../core/exchange/season-folder/read-season-folder.ts'),
        import('../../core/exchange/mapping/find-sheets.ts'),
      ]);
      const { record, zone } = this.#season;
      const options = {
        ...this.#who(),
        zone,
        ...(record.nests.size > 0 ? { into: record } : {}),
      };
      const readFiles = (files: ReadonlyMap<string, Uint8Array>): ReadSeason =>
        readSeasonFolder(files, options);
      const found = findSheets(opened.files);
      if (found.sheets.length === 0) {
        await this.#show(readFiles(opened.files), null);
        return;
      }
      const [{ MatchDesk }, mappings] = await Promise.all([
        import('./match-desk.svelte.ts'),
        this.#mappings(),
      ]);
      this.#stage = {
        stage: 'matching',
        match: new MatchDesk(found, mappings, readFiles),
      };
    } catch (error) {
      this.#refuse(error);
    }
  }

  /** A table that was copied in a spreadsheet, or typed. */
  async lookPasted(text: string): Promise<void> {
    const { pastedFile } = await import('../../core/exchange/mapping/find-sheets.ts');
    const files = pastedFile(new TextEncoder().encode(text));
    await this.look(Promise.resolve({ ok: true, files }));
    if (this.#stage.stage === 'preview') {
      const message =
        'This is no table: expected a row of headings and rows below it, cells parted by tabs, commas or semicolons. Copy the cells in your spreadsheet, headings too, and paste them.';
      this.#stage = { stage: 'refused', message };
    }
  }

  /** From the matched columns on to what would be taken. */
  async matched(): Promise<void> {
    if (this.#stage.stage !== 'matching') return;
    const { match } = this.#stage;
    if (match.waitsFor !== null) return;
    match.remember();
    try {
      await this.#show(match.read, match);
    } catch (error) {
      this.#refuse(error);
    }
  }

  /** Back from what would be taken to the columns it was made from. */
  backToColumns(): void {
    if (this.#stage.stage !== 'preview' || this.#stage.match === null) return;
    this.#stage = { stage: 'matching', match: this.#stage.match };
  }

  async #show(read: ReadSeason, match: MatchDesk | null): Promise<void> {
    const { reconcile } = await import('../../core/exchange/reconcile/reconcile.ts');
    const joins = reconcile(read, this.#season.record, this.#who());
    this.#stage = { stage: 'preview', read, joins, match };
  }

  #who(): { readonly author: string; readonly device: string; readonly now_ms: number } {
    const { author, device } = this.#settings.now;
    return { author: author ?? '', device, now_ms: this.#season.clock.read_ms() };
  }

  #refuse(error: unknown): void {
    const said = error instanceof Error ? error.message : String(error);
    this.#stage = { stage: 'refused', message: `The files could not be read: ${said}` };
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
