import { render, screen } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { expect, test, vi } from 'vitest';
import Defaults from '../../../src/app/screens/programme/Defaults.svelte';
import MeasuresChoice from '../../../src/app/screens/programme/MeasuresChoice.svelte';
import ZoneList from '../../../src/app/screens/programme/ZoneList.svelte';
import { scratchSeason } from '../note/scratch-season.ts';
import { tap, type } from '../hands.ts';

test('the measures chosen are those of the device, and what is on the page follows', async () => {
  const { settings, context } = await scratchSeason({ dark: false });
  render(MeasuresChoice, { context });
  render(Defaults, { context });
  expect(screen.getByRole('button', { name: 'Metres, °C' })).toHaveAttribute(
    'aria-pressed',
    'true',
  );
  expect(document.body).toHaveTextContent('from 16.8 °C');
  tap('Feet, miles, °F');
  expect(settings.now.measures).toBe('feet');
  expect(screen.getByRole('button', { name: 'Feet, miles, °F' })).toHaveAttribute(
    'aria-pressed',
    'true',
  );
  expect(document.body).toHaveTextContent('from 62.2 °F');
});

test('a zone is typed in feet, kept in metres and shown in either', async () => {
  const { season, settings, context } = await scratchSeason({ dark: false, measures: 'feet' });
  render(ZoneList, { props: { isDark: false }, context });
  type('New zone', 'North');
  type('Length, ft', '8530');
  tap('Add the zone');
  await vi.waitFor(() => {
    expect(season.record.programme.zones).toEqual([{ zone: 'North', length_m: 2599.944 }]);
  });
  expect(screen.getByText(/^8530 ft/)).toBeInTheDocument();
  settings.change({ measures: 'metric' });
  flushSync();
  expect(screen.getByText(/^2600 m/)).toBeInTheDocument();
  expect(screen.getByLabelText('Length, m')).toBeInTheDocument();
});
