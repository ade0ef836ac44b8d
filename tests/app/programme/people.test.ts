import { render, screen } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { describe, expect, test, vi } from 'vitest';
import People from '../../../src/app/screens/programme/People.svelte';
import WhoIAm from '../../../src/app/screens/programme/WhoIAm.svelte';
import { scratchSeason } from '../note/scratch-season.ts';
import { type } from '../hands.ts';

function tap(name: string): void {
  screen.getByText(name, { selector: 'button' }).click();
  flushSync();
}

describe('people', () => {
  test('somebody new is enrolled with what was filled in', async () => {
    const { season, context } = await scratchSeason({ dark: false });
    render(People, { context });
    tap('Add a person');
    type(/^Name/, 'Imre');
    type(/^Shifts a week/, '3');
    tap('Add');
    await vi.waitFor(() => {
      expect(season.record.volunteers.map(({ fact }) => fact)).toMatchObject([
        { volunteer: 'Imre', details: { max_shifts_week: 3 } },
      ]);
    });
  });

  test('a name that is taken is refused', async () => {
    const { season, context } = await scratchSeason({ dark: false, people: ['Imre'] });
    render(People, { context });
    tap('Add a person');
    type(/^Name/, 'Imre');
    tap('Add');
    expect(await screen.findByRole('alert')).toHaveTextContent('on the list already');
    expect(season.record.volunteers).toHaveLength(1);
  });

  test('somebody who leaves is asked about once more, and their notes stay', async () => {
    const { season, context } = await scratchSeason({ dark: false, people: ['Imre'] });
    render(People, { context });
    screen.getByLabelText('Change Imre').click();
    flushSync();
    tap('Leaves the programme …');
    expect(season.record.volunteers).toHaveLength(1);
    tap('Take off the list');
    await vi.waitFor(() => {
      expect(season.record.volunteers).toHaveLength(0);
    });
  });

  test('at night the list is there to read, and nothing to type in', async () => {
    const { context } = await scratchSeason({ dark: true, people: ['Imre'] });
    render(People, { context });
    expect(screen.getByText('Imre')).toBeInTheDocument();
    expect(document.querySelectorAll('input, select, textarea, form')).toHaveLength(0);
  });
});

describe('who I am', () => {
  test('is chosen from the list at night, without typing', async () => {
    const { settings, context } = await scratchSeason({ author: null, people: ['Imre', 'Sol'] });
    render(WhoIAm, { context });
    expect(document.querySelectorAll('input')).toHaveLength(0);
    tap('Sol');
    expect(settings.now.author).toBe('Sol');
  });
});
