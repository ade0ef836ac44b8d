import { findChromium } from '../../scripts/chromium.mjs';
import { findFirefox, findWebKit } from '../../scripts/engines.mjs';
import type { OpenApp } from './engines/open-app.ts';
import { launchFirefox } from './engines/firefox.ts';
import { launchWebKit } from './engines/webkit.ts';
import { launch as launchChromium, type LaunchOptions } from './launch.ts';

export { readyForOffline } from './engines/open-app.ts';
export type { JourneyPage } from './engines/journey-page.ts';
export { LAPTOP, PHONE } from './launch.ts';
export type { OpenApp };

/** The engine that this run of the journeys is in; vitest's projects set it. */
const ENGINE = process.env.ENGINE ?? 'chromium';

const ENGINES = {
  chromium: { find: findChromium, launch: launchChromium },
  firefox: { find: findFirefox, launch: launchFirefox },
  webkit: { find: findWebKit, launch: launchWebKit },
};

function isKnown(name: string): name is keyof typeof ENGINES {
  return Object.hasOwn(ENGINES, name);
}

function engine(): (typeof ENGINES)[keyof typeof ENGINES] {
  if (isKnown(ENGINE)) return ENGINES[ENGINE];
  throw new Error(`ENGINE names ${ENGINE}; there are ${Object.keys(ENGINES).join(', ')}.`);
}

/** True when the engine of this run is installed. */
export const isEngineHere = (): boolean => engine().find() !== null;

/** Serves dist and opens an empty tab of phone size in the engine of this run. Close it when done. */
export const launch = (options: LaunchOptions = {}): Promise<OpenApp> => engine().launch(options);
