import type { DeviceSettings } from './device-settings.svelte.ts';

export type Screen = 'day' | 'dark';

/** Which of the two screens shows: by the switch, else by whether it is dark outside. */
export class DayOrDark {
  readonly #settings: DeviceSettings;
  readonly #isDarkOutside: () => boolean;

  readonly screen: Screen = $derived.by(() => {
    switch (this.#settings.now.darkSwitch) {
      case 'always':
        return 'dark';
      case 'never':
        return 'day';
      case 'auto':
        return this.#isDarkOutside() ? 'dark' : 'day';
    }
  });

  /** `isDarkOutside` may read state: it is asked again when that changes. */
  constructor(settings: DeviceSettings, isDarkOutside: () => boolean) {
    this.#settings = settings;
    this.#isDarkOutside = isDarkOutside;
  }

  /** True when nothing may be typed and no white thing may appear. */
  get isDark(): boolean {
    return this.screen === 'dark';
  }
}
