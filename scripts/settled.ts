import type { Page } from 'playwright-core';

const QUIET_MS = 300;
const LONGEST_WAIT_MS = 15_000;

/**
 * Waits until the app has drawn something, its fonts are read, nothing on the page says that it is
 * busy, and the page has not changed for a moment. Throws when that takes longer than 15 seconds.
 */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      (document.querySelector('#app')?.childElementCount ?? 0) > 0 &&
      document.querySelector('[aria-busy="true"]') === null,
    undefined,
    { timeout: LONGEST_WAIT_MS },
  );
  await page.evaluate(
    async ([quiet_ms, longest_ms]) => {
      await document.fonts.ready;
      await new Promise<void>((done, fail) => {
        const late = setTimeout(() => fail(new Error('the page never came to rest')), longest_ms);
        let quiet = setTimeout(rest, quiet_ms);
        const watcher = new MutationObserver(() => {
          clearTimeout(quiet);
          quiet = setTimeout(rest, quiet_ms);
        });
        watcher.observe(document, { subtree: true, childList: true, attributes: true });
        function rest() {
          watcher.disconnect();
          clearTimeout(late);
          done();
        }
      });
    },
    [QUIET_MS, LONGEST_WAIT_MS] as const,
  );
}
