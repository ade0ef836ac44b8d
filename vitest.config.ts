import { svelte } from '@sveltejs/vite-plugin-svelte';
import { svelteTesting } from '@testing-library/svelte/vite';
import { defineConfig } from 'vitest/config';

const BROWSER_TESTS = ['tests/**/*.browser.test.ts', 'tests/**/*.e2e.ts'];

const JOURNEYS = {
  isolate: false,
  globalSetup: ['tests/journeys/built-app.ts'],
  testTimeout: 120_000,
  hookTimeout: 120_000,
};

/** A short journey for every engine; Chromium has all of it in longer ones. */
const SHORT_JOURNEY = 'tests/journeys/every-engine.e2e.ts';

/** The journeys in an engine besides Chromium: the short one, or all for `npm run test:engines`. */
const journeysIn = (name: 'firefox' | 'webkit') => ({
  test: {
    name,
    env: { ENGINE: name },
    include: process.env.ENGINES === 'full' ? ['tests/journeys/*.e2e.ts'] : [SHORT_JOURNEY],
    // What axe judges and what is said is the same document in every engine.
    exclude: ['tests/journeys/accessible.e2e.ts', 'tests/journeys/spanish.e2e.ts'],
    ...JOURNEYS,
  },
});

/**
 * The suffix and the folder of a test say what it needs; each project gives it that. No file changes
 * what another sees, so they share a process: starting anew for each took minutes in all.
 */
export default defineConfig({
  test: {
    pool: 'forks',
    maxWorkers: 2,
    passWithNoTests: true,
    projects: [
      {
        test: {
          name: 'node',
          isolate: false,
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/app/**', ...BROWSER_TESTS],
          testTimeout: 30_000,
        },
      },
      {
        plugins: [svelte(), svelteTesting()],
        test: {
          name: 'dom',
          isolate: false,
          environment: 'jsdom',
          include: ['tests/app/**/*.test.ts'],
          exclude: BROWSER_TESTS,
          setupFiles: ['tests/app/dom-setup.ts'],
          testTimeout: 15_000,
        },
      },
      {
        test: {
          name: 'browser',
          include: BROWSER_TESTS,
          exclude: [SHORT_JOURNEY],
          ...JOURNEYS,
        },
      },
      journeysIn('firefox'),
      journeysIn('webkit'),
    ],
  },
});
