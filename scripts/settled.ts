import type { Page } from 'playwright-core';

const LOOK_EVERY_MS = 100;
const QUIET_LOOKS = 4;
const LONGEST_WAIT_MS = 15_000;

/**
 * Waits until the app has drawn something, nothing on the page says that it is busy, its fonts are
 * read, and the page has stayed as it is for four looks. Throws when that takes over 15 seconds.
 */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      (document.querySelector('#app')?.childElementCount ?? 0) > 0 &&
      document.querySelector('[aria-busy="true"]') === null,
    undefined,
    { timeout: LONGEST_WAIT_MS },
  );
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
  let before = '';
  let alike = 0;
  for (let waited_ms = 0; waited_ms < LONGEST_WAIT_MS; waited_ms += LOOK_EVERY_MS) {
    const now = await page.content();
    alike = now === before ? alike + 1 : 0;
    if (alike >= QUIET_LOOKS) return;
    before = now;
    await page.waitForTimeout(LOOK_EVERY_MS);
  }
  throw new Error(`the page never came to rest in ${LONGEST_WAIT_MS / 1000} seconds`);
}
