import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Language } from '../../src/words/languages.ts';
import { bayAfternoon, bayFiles } from './invented-bay.ts';
import { launch, type Launched } from './launch.ts';
import { places, placesNowhere, placesOfNest } from './places.ts';
import { saidIn } from './said-in.ts';
import { SpanishScreens, textsOf } from './spanish-screen.ts';
import { bringIn, note, openInvented, ranking } from './steps.ts';

const spanish = saidIn('es');
const { say, notSaidSo } = spanish;

let app: Launched;
let page: Page;
let nest = '';

beforeAll(async () => {
  app = await launch({
    colorScheme: 'light',
    startsAt: '2026-08-20T15:00:00-04:00',
    locale: 'es-MX',
  });
  ({ page } = app);
  await openInvented(page, app.address, say);
  nest = (await ranking(page))[0]?.nest ?? '';
});

afterAll(async () => {
  expect(app.consoleErrors).toEqual([]);
  await app.close();
});

async function open(hash: string): Promise<void> {
  await page.goto(`${app.address}${hash}`);
  await page.locator('h1').first().waitFor();
  for (const wait of ['One moment …', 'Learning from the record …']) {
    await page.getByText(say(wait)).waitFor({ state: 'detached' });
  }
  await page.locator('[aria-busy=true]').first().waitFor({ state: 'detached' });
}

const language = (): Promise<string> => page.evaluate(() => document.documentElement.lang);

/** Chooses a language by its own name, and waits until the page has been loaded anew in it. */
async function change(to: Language, name: string): Promise<void> {
  await open('#/programme');
  await page.getByRole('button', { name, exact: true }).click();
  await page.waitForFunction(
    (tag) => document.documentElement.lang === tag && document.querySelector('h1') !== null,
    to,
  );
}

/** Whether what was noted at the nest stands there, in the words of the language. */
async function sees(noted: string): Promise<void> {
  await page.goto(`${app.address}#/nest/${nest}`);
  await page.getByText(noted).first().waitFor();
}

test('a phone whose system is Spanish opens the app in Spanish', async () => {
  expect(await language()).toBe('es');
  expect(await page.locator('h1').first().textContent()).toMatch(/^\p{Ll}+ \d+ de \p{Ll}+$/u);
});

test('a note is made in the dark and stands with its nest', async () => {
  await page.getByRole('button', { name: say('Dark screen') }).click();
  await note(page, nest, 'depression', 'steady', say);
  expect(await page.evaluate(() => document.documentElement.className)).toBe('dark');
  expect(notSaidSo(await textsOf(page))).toEqual([]);
  await page.getByRole('button', { name: say('Day screen') }).click();
  await open(`#/nest/${nest}`);
  await page.getByText('depresión · constante').first().waitFor();
});

test('nothing on any screen is in English, and nothing hangs over the edge', async () => {
  const screens = new SpanishScreens();
  for (const place of [...places, ...placesOfNest, ...placesNowhere]) {
    await open(place.replace('NEST', encodeURIComponent(nest)));
    await screens.look(page, place);
  }
  expect(screens.texts.length).toBeGreaterThan(800);
  expect(screens.faults(spanish)).toEqual([]);
  expect(screens.texts.some((text) => /\d,\d/.test(text))).toBe(true);
  expect(screens.texts.some((text) => /^\d+,\d{5}; -\d+,\d{5}$/.test(text))).toBe(true);
});

test('English and Spanish again keep what was noted', async () => {
  await change('en', 'English');
  await sees('depression · steady');
  await change('es', 'Español');
  await sees('depresión · constante');
});

describe('a small season on another Spanish device', () => {
  let lead: Page;
  const screens = new SpanishScreens();
  const press = (text: string): Promise<void> =>
    lead
      .getByRole('button', { name: say(text), exact: true })
      .first()
      .click();

  beforeAll(async () => {
    lead = await app.anotherDevice();
    await lead.context().clock.setSystemTime(bayAfternoon);
    await bringIn(lead, app.address, bayFiles, say);
  });

  test('a plan of who sits where says in Spanish how good it is, and who could sit', async () => {
    await lead.goto(`${app.address}#/roster`);
    await press('Make a plan');
    await lead.getByRole('button', { name: say('Plan again') }).waitFor({ timeout: 90_000 });
    await lead.getByText(say('No plan can bring more.')).waitFor();
    await lead.locator('button.sat').first().click();
    await lead.getByText(say('Who sits here')).waitFor();
    await press('Share');
    await screens.look(lead, 'plan');
    expect(screens.texts.some((text) => /^\d,\d$/.test(text))).toBe(true);
    await press('Give out this plan');
    await lead.getByText(say('This plan is given out.')).waitFor();
    await screens.look(lead, 'plan given out');
    expect(screens.faults(spanish)).toEqual([]);
  });

  test('one’s own nights are in Spanish, and what changes when one cannot come', async () => {
    const name = (await lead.locator('button.sat .name').first().textContent()) ?? '';
    await lead.goto(`${app.address}#/roster/mine`);
    const names = lead.getByRole('group', { name: say('My name') });
    await names.getByRole('button', { name }).click();
    await lead
      .getByRole('button', { name: say('I cannot come') })
      .first()
      .waitFor();
    await screens.look(lead, 'my nights');
    await press('I cannot come');
    const told = say('You said that you cannot come. Tell your lead, who plans again.');
    await lead.getByText(told).waitFor();
    await screens.look(lead, 'cannot come');
    await lead.goto(`${app.address}#/roster`);
    const stale = say('The odds, the people or the pins have changed since this plan was made.');
    await lead.getByText(stale).waitFor();
    await screens.look(lead, 'plan before the change');
    await press('Plan again');
    await lead.getByText(stale).waitFor({ state: 'detached', timeout: 90_000 });
    await lead.locator('summary', { hasText: 'sin publicar' }).waitFor({ timeout: 90_000 });
    await screens.look(lead, 'plan after the change');
    await lead.goto(`${app.address}#/roster/crews`);
    await lead.locator('figure svg').first().waitFor();
    await screens.look(lead, 'how many pairs');
    expect(screens.faults(spanish)).toEqual([]);
  });

  test('the odds held against what happened are in Spanish', async () => {
    await lead.goto(`${app.address}#/season`);
    await press('Replay the season');
    const held = lead.getByRole('heading', { name: say('Said and happened') });
    await held.waitFor({ timeout: 90_000 });
    await screens.look(lead, 'replay');
    expect(screens.texts.filter((text) => /^\d,\d{4}$/.test(text)).length).toBeGreaterThan(2);
    expect(screens.faults(spanish)).toEqual([]);
  });
});
