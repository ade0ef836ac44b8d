import { cleanup, render, screen, waitFor } from '@testing-library/svelte';
import { describe, expect, test } from 'vitest';
import type { NightText } from '../../../src/core/domain/night.ts';
import Roster from '../../../src/app/screens/roster/Roster.svelte';
import type { RosterPart } from '../../../src/app/state/route.ts';
import { scratchSeason, type ScratchOptions } from '../note/scratch-season.ts';

// jsdom lays nothing out, so there is nothing to scroll.
Element.prototype.scrollIntoView = () => undefined;

const night = '2026-08-01' as NightText;

async function open(part: RosterPart, options: ScratchOptions = {}) {
  const made = await scratchSeason(options);
  for (const { fact, original } of made.season.record.volunteers) {
    await made.season.correct(original.id, { experience: 'lead' });
    const { volunteer } = fact;
    await made.season.write({ kind: 'availability-given', volunteer, details: { night } });
  }
  render(Roster, { props: { part }, context: made.context });
  return made;
}

const button = (name: RegExp | string) => screen.getByRole('button', { name });

describe('the roster’s screen', () => {
  test('plans, lets a person be pinned where they were tapped, and gives the plan out', async () => {
    const { season } = await open('plan', { people: ['Ada', 'Bo'] });
    button('Make a plan').click();
    const crew = await screen.findByRole('button', { name: /W-0\d\d.*Ada/ });
    crew.click();
    const ada = await screen.findByRole('button', { name: /^Ada sits here: tap to pin/ });
    ada.click();
    await screen.findByRole('button', { name: /Ada sits here by hand: tap to release/ });
    expect(season.record.pins.map(({ fact }) => fact.details.volunteer)).toEqual(['Ada']);
    // The plan is made anew around the pin; until then it cannot be given out.
    await waitFor(() => {
      button('Give out this plan').click();
      expect(season.record.published).toHaveLength(1);
    });
    await screen.findByText('This plan is given out.');
    // The solver itself is loaded and asked twice: long on a busy machine.
  }, 60_000);

  test('shows the plan that is made after it was left for another screen and opened again', async () => {
    const { context } = await open('plan', { people: ['Ada', 'Bo'] });
    cleanup();
    render(Roster, { props: { part: 'plan' }, context });
    button('Make a plan').click();
    await screen.findByRole('button', { name: /W-0\d\d.*Ada/ });
  }, 60_000);

  test('with nobody on the list says what to do', async () => {
    await open('plan');
    expect(screen.getByText(/Nobody is on the list of people yet/)).toBeVisible();
    expect(screen.getByRole('link', { name: 'Add the people who sit' })).toHaveAttribute(
      'href',
      '#/programme/people',
    );
  });

  test('opens no keyboard and no picker in the dark, whatever part of it', async () => {
    for (const part of ['plan', 'mine', 'people', 'crews'] as const) {
      await open(part, { people: ['Ada', 'Orla'] });
      expect(document.querySelectorAll('input, select, textarea')).toHaveLength(0);
      document.body.replaceChildren();
    }
  });
});

describe('my nights', () => {
  test('are those given out for me, and I can say that I cannot come', async () => {
    const { season } = await open('mine', { people: ['Orla', 'Bo'] });
    const post = {
      watch: 'evening',
      nests: ['W-014'],
      from: '2026-08-01T21:00-04:00',
      to: '2026-08-02T01:00-04:00',
      sitters: ['Bo', 'Orla'],
    };
    await season.write({ kind: 'night-published', details: { night, posts: [post] } as never });
    expect(await screen.findByText(/Sat 1 Aug, 21:00 to 01:00/)).toBeVisible();
    expect(screen.getByText(/W-014, with Bo/)).toBeVisible();
    button('I cannot come').click();
    await screen.findByText(/You said that you cannot come/);
    expect(button(/^Sat 1 Aug cannot/)).toHaveAttribute('aria-pressed', 'false');
  });

  test('can be offered by the week, and one night taken out', async () => {
    const { season } = await open('mine', { people: ['Orla'] });
    button('Mon').click();
    await screen.findByRole('button', { name: /^Mon 3 Aug can, all night/ });
    button(/^Mon 3 Aug/).click();
    await screen.findByRole('button', { name: /^Mon 3 Aug cannot/ });
    expect(button(/^Mon 10 Aug/)).toHaveAttribute('aria-pressed', 'true');
    expect(season.record.weeklyPatterns[0]?.fact.details.days).toEqual([{ weekday: 1 }]);
  });
});

test('how many pairs it would take stands there as a curve and as a table', async () => {
  await open('crews', { people: ['Ada'] });
  expect(
    screen.getByRole('img', { name: /Share met by pairs: tonight 0: 0 percent/ }),
  ).toBeInTheDocument();
  expect(screen.getAllByRole('row').length).toBeGreaterThan(3);
});
