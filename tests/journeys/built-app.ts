import type { TestProject } from 'vitest/node';
import { ensureBuilt } from '../../scripts/build.mjs';
import { ensureChromium } from '../../scripts/chromium.mjs';

/** Before any browser test: Chromium is there where it is asked for, and dist is what the sources say. */
export default function setup({ name }: TestProject): void {
  if (name === 'browser' && !ensureChromium()) {
    throw new Error('no Chromium to run the browser tests in');
  }
  ensureBuilt();
}
