import type { Place } from '../../core/sky/place.ts';
import { batteryLevel } from '../../edges/device/battery.ts';
import { DeviceCompass } from '../../edges/device/compass.ts';
import { offlineState } from '../../edges/device/offline.ts';
import { askPosition, knownPosition, positionLeave } from '../../edges/device/position.ts';
import { askToPersist, storageState } from '../../edges/device/storage.ts';
import { browserSolver } from '../../edges/solver/browser-solver.ts';
import { SettingsShelf } from '../../edges/store/settings.ts';
import type { Language } from '../../words/languages.ts';
import type { App } from '../state/app.ts';
import { RunningClock } from '../state/clock.svelte.ts';
import { darkMemory } from '../state/dark-memory.ts';
import { isDarkOutside, placeOf } from '../state/dark-hours.ts';
import { DayOrDark } from '../state/day-or-dark.svelte.ts';
import { DeviceSettings } from '../state/device-settings.svelte.ts';
import { GuidedLook } from '../state/guided-look.svelte.ts';
import { Notices } from '../state/notices.svelte.ts';
import { OddsReplay } from '../state/odds-replay.svelte.ts';
import { Router } from '../state/router.svelte.ts';
import { Seasons } from '../state/seasons.svelte.ts';
import { Sharing } from '../state/sharing.svelte.ts';
import { browserFiles } from './browser-files.ts';
import { deviceTime } from './device-time.ts';
import { deviceZone } from './device-zone.ts';
import { rememberForFirstPaint } from './first-paint-memory.ts';
import { hashAddress } from './hash-address.ts';
import { ownScript } from './own-script.ts';
import { replayInWorker } from './replay-worker.ts';
import { seasonShelf } from './season-shelf.ts';
import { sharingTools } from './sharing-tools.ts';
import { keepOnDevice } from './service-worker.ts';
import { forecasterWorker } from './forecaster-worker.ts';

/** Chooses the edges and puts the app together; the last season opens at once. */
export function openApp(language: Language): App {
  const notices = new Notices();
  const store = new SettingsShelf();
  const settings = new DeviceSettings(store, store.read(), (text) => {
    notices.show({ subject: 'settings', tone: 'problem', text });
  });
  const seasons = new Seasons(seasonShelf(deviceTime), settings, {
    newForecaster: forecasterWorker,
    random: () => crypto.getRandomValues(new Uint8Array(16)),
    get fallbackZone() {
      return deviceZone();
    },
    trouble: (subject, text, reload) => {
      const action = { label: 'Reload the page', run: () => location.reload() };
      notices.show({ subject, tone: 'problem', text, ...(reload ? { action } : {}) });
    },
  });
  const clock = new RunningClock(deviceTime);
  const paintedDark = document.documentElement.classList.contains('dark');
  // The invented coast is nowhere: there the device's own evening decides.
  const around = (): { place: Place | null; zone: string } | null => {
    const season = seasons.season;
    if (season === null) return null;
    if (season.isInvented) return { place: null, zone: deviceZone() };
    return { place: placeOf(season.record.programme), zone: season.zone };
  };
  const dayOrDark = new DayOrDark(settings, () => {
    const here = around();
    // Until a season is open the first paint stands: nothing may flash white in between.
    if (here === null) return paintedDark;
    return isDarkOutside(here.place, here.zone, clock.now_ms);
  });
  const rememberDark = (): void => {
    const here = around();
    const { darkSwitch, season } = settings.now;
    // A season that is still being opened must not lose what the last one told.
    if (here === null && season !== null) return;
    rememberForFirstPaint(
      here === null
        ? { switch: darkSwitch, spans: [] }
        : darkMemory(darkSwitch, here.place, here.zone, clock.read_ms()),
    );
  };
  // Without it the app works all the same, with reception; "Get ready before dark" tells.
  void keepOnDevice(notices).catch(() => undefined);
  const last = settings.now.season;
  if (last !== null) void seasons.switchSeason(last);
  return {
    router: new Router(hashAddress),
    guide: new GuidedLook(),
    settings,
    dayOrDark,
    clock,
    notices,
    seasons,
    oddsReplay: new OddsReplay(replayInWorker),
    files: browserFiles,
    readiness: { offline: () => offlineState(), battery: () => batteryLevel() },
    sharing: new Sharing(sharingTools(settings), settings),
    compass: new DeviceCompass(),
    position: {
      leave: () => positionLeave(),
      find: () => knownPosition(),
      ask: () => askPosition(),
    },
    listen: async () => (await import('./listen-tools.ts')).listenTools,
    codeReader: async () => (await import('./code-reader.ts')).codeReader,
    solver: browserSolver(ownScript),
    storage: { ask: () => storageState(), persist: () => askToPersist() },
    rememberDark,
    language,
    startAgain: () => {
      location.reload();
    },
  };
}
