import type { Page } from 'playwright-core';

/** One picture to take. `show` starts from the app as it opens for the first time. */
export interface ScreenToShow {
  /** Part of the file's name. */
  readonly name: string;
  readonly show: (page: Page, ink: 'dark' | 'day') => Promise<void>;
}

/** Every screen there is; add a line with each new one. */
export const SCREENS: readonly ScreenToShow[] = [
  { name: 'first-open', show: () => Promise.resolve() },
];
