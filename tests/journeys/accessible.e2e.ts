import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, type Launched, PHONE } from './launch.ts';
import { places } from './places.ts';
import { openInvented, ranking } from './steps.ts';

/** axe-core 4 (Deque, MPL-2.0): the rules of WCAG 2.2 A and AA, and what it calls best practice. */
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Those that are used on the beach: the dark ink is the same on all. */
const atNight = ['#/tonight', '#/note', '#/listen', '#/boil', '#/orientation', '#/ready', '#/help'];

/** What axe finds against the page as it stands, each with the first element it is found on. */
async function faults(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    interface Found {
      violations: { id: string; nodes: { html: string; failureSummary?: string }[] }[];
    }
    const run = (
      window as unknown as { axe: { run: (what: Document, how: object) => Promise<Found> } }
    ).axe.run;
    const { violations } = await run(document, { resultTypes: ['violations'] });
    return violations.map(
      ({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''} ${nodes[0]?.failureSummary ?? ''}`,
    );
  });
}

/** Controls that are lower than a target of this size. Words that link within a text are no targets. */
function lowerThan(page: Page, least_px: number): Promise<readonly string[]> {
  return page
    .locator(':is(button, a, input:not([type=radio], [type=checkbox]), select, summary):visible')
    .evaluateAll(
      (controls, least) =>
        controls
          // One that has just been drawn anew is not on the page any more.
          .filter((one) => one.isConnected && getComputedStyle(one).display !== 'inline')
          .map((one) => ({
            text: one.textContent.trim(),
            height: one.getBoundingClientRect().height,
          }))
          .filter(({ height }) => height < least - 0.5)
          .map(({ text, height }) => `${text}: ${height.toFixed(1)} px`),
      least_px,
    );
}

/** How much wider than the window the page is, CSS pixels. */
const overhang_px = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

describe.each([
  {
    mode: 'day',
    startsAt: '2026-08-20T15:00:00-04:00',
    target_px: 44,
    shown: places,
    isStretched: true,
  },
  // The same layout with larger targets: how it stretches is seen by day.
  {
    mode: 'dark',
    startsAt: '2026-08-20T22:30:00-04:00',
    target_px: 56,
    shown: atNight,
    isStretched: false,
  },
] as const)('on the $mode screen', ({ mode, startsAt, target_px, shown, isStretched }) => {
  let app: Launched;
  let nest = '';

  beforeAll(async () => {
    app = await launch({ colorScheme: mode === 'day' ? 'light' : 'dark', startsAt });
    await openInvented(app.page, app.address);
    nest = (await ranking(app.page))[0]?.nest ?? '';
  });

  afterAll(async () => {
    await app.close();
  });

  async function open(hash: string): Promise<void> {
    await app.page.goto(`${app.address}${hash}`);
    await app.page.locator('h1').first().waitFor();
    await app.page.getByText('One moment …').waitFor({ state: 'detached' });
  }

  test.each([...shown, '#/nest'])('%s can be used by everyone', async (hash) => {
    const { page } = app;
    await open(hash === '#/nest' ? `#/nest/${nest}` : hash);
    expect(await faults(page)).toEqual([]);
    expect(await lowerThan(page, target_px)).toEqual([]);
    if (!isStretched) return;

    // WCAG 2.2, 1.4.10: nothing is cut off at 320 CSS pixels; 1.4.4: nor with text of twice the size.
    await page.setViewportSize({ width: 320, height: 640 });
    await expect.poll(() => overhang_px(page)).toBeLessThanOrEqual(1);
    await page.setViewportSize(PHONE);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '200%';
    });
    await expect.poll(() => overhang_px(page)).toBeLessThanOrEqual(1);
    await page.evaluate(() => {
      document.documentElement.style.fontSize = '';
    });
  });

  test('a nest reads like a sentence', async () => {
    await open('#/tonight');
    await app.page
      .getByRole('link', { name: /^Nest \S+, (less than )?\d+ percent tonight, .+, .+$/ })
      .first()
      .waitFor();
  });

  test('nothing moves where the device asks for stillness', async () => {
    await open('#/tonight');
    const moving = await app.page.evaluate(
      () =>
        [...document.querySelectorAll('*')].filter((one) => {
          const { animationName, animationDuration, transitionDuration } = getComputedStyle(one);
          const longest_s = Math.max(...transitionDuration.split(',').map(parseFloat));
          return (
            longest_s > 0.01 || (animationName !== 'none' && parseFloat(animationDuration) > 0.01)
          );
        }).length,
    );
    expect(moving).toBe(0);
  });

  test('a note is made with the keyboard alone, and what has the focus is marked', async () => {
    const { page } = app;
    await open(`#/note/${nest}`);
    const reached = new Set<string>();
    const press = async (name: RegExp): Promise<void> => {
      for (let step = 0; step < 80; step++) {
        await page.keyboard.press('Tab');
        const at = await page.evaluate(() => {
          const one = document.activeElement;
          if (one === null || one === document.body) return null;
          const { outlineStyle, outlineWidth } = getComputedStyle(one);
          const isMarked = outlineStyle !== 'none' && parseFloat(outlineWidth) >= 2;
          const text = one.getAttribute('aria-label') ?? one.textContent.trim();
          return { text, isMarked };
        });
        if (at === null) continue;
        reached.add(at.text);
        expect(at).toEqual({ text: at.text, isMarked: true });
        if (name.test(at.text)) {
          await page.keyboard.press('Enter');
          return;
        }
      }
      throw new Error(`No ${String(name)} among ${[...reached].join(' | ')}`);
    };
    await page.getByRole('heading', { name: 'Note' }).waitFor();
    if (await page.getByRole('button', { name: /without (a )?name/i }).isVisible()) {
      await press(/without (a )?name/i);
    }
    await press(/^dip/);
    await press(/^quiet/);
    await page.getByText('Saved on this device').first().waitFor();
  });

  test('nothing went wrong on the way', () => {
    expect(app.consoleErrors).toEqual([]);
  });
});
