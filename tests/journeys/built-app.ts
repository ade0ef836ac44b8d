import { ensureBuilt } from '../../scripts/build.mjs';
import { ensureChromium } from '../../scripts/chromium.mjs';

/** Before any browser test: Chromium is there, and dist is what the sources say. */
export default function setup(): void {
  if (!ensureChromium()) throw new Error('no Chromium to run the browser tests in');
  ensureBuilt();
}
