import type { Measures } from '../../core/domain/measures.ts';
import type { Experience, Instrument } from '../../core/domain/visit.ts';
import type { Language } from '../../words/languages.ts';

/** When the dark screen shows: by the sun, or by one's own choice. */
export type DarkSwitch = 'auto' | 'always' | 'never';
export type SeasonName = 'own' | 'invented';

/** What one device remembers of the person who carries it; nothing of it is in the record. */
export interface Settings {
  /** Stamped on every event, so that two devices can be told apart. */
  readonly device: string;
  readonly author: string | null;
  readonly experience: Experience | null;
  readonly darkSwitch: DarkSwitch;
  readonly cautionsSeen: boolean;
  /** Null: as the system wishes. */
  readonly language: Language | null;
  /** In which units lengths and temperatures are shown and typed here. */
  readonly measures: Measures;
  /** The season that was open last; null before the first choice. */
  readonly season: SeasonName | null;
  /** What the last note was made with. */
  readonly instrument: Instrument | null;
  readonly lastNest: string | null;
}

export interface SettingsStore {
  /** Rejects with a message for the person when they could not be kept. */
  save(settings: Settings): Promise<void>;
}

/** The device's settings while the app is open. A change shows at once and is saved behind it. */
export class DeviceSettings {
  readonly #store: SettingsStore;
  readonly #failed: (message: string) => void;
  #now: Settings;

  constructor(store: SettingsStore, loaded: Settings, failed: (message: string) => void) {
    this.#store = store;
    this.#failed = failed;
    this.#now = $state.raw(loaded);
  }

  get now(): Settings {
    return this.#now;
  }

  change(changes: Partial<Settings>): void {
    this.#now = { ...this.#now, ...changes };
    this.#store.save(this.#now).catch((error: unknown) => {
      this.#failed(error instanceof Error ? error.message : String(error));
    });
  }
}
