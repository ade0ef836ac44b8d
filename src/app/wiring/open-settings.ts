import type { Settings, SettingsStore } from '../state/device-settings.svelte.ts';

const KEY = 'firstdark-settings';

export function openSettings(): Promise<SettingsStore> {
  return Promise.resolve({
    load: () => {
      const held = JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Settings>;
      return Promise.resolve({
        device: crypto.randomUUID(),
        author: null,
        experience: null,
        darkSwitch: 'auto',
        cautionsSeen: false,
        season: null,
        instrument: null,
        lastNest: null,
        ...held,
      });
    },
    save: (settings) => {
      localStorage.setItem(KEY, JSON.stringify(settings));
      return Promise.resolve();
    },
  });
}
