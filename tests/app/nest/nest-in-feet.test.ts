import { render, screen } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { describe, expect, test, vi } from 'vitest';
import Nest from '../../../src/app/screens/nest/Nest.svelte';
import Register from '../../../src/app/screens/nest/Register.svelte';
import { nestId, scratchSeason } from '../note/scratch-season.ts';
import { tap, type } from '../hands.ts';

const inFeet = (shore_m = 123.4) =>
  scratchSeason({ dark: false, measures: 'feet', nests: { 'W-014': { shore_m } } });

describe('a nest on a device that shows feet', () => {
  test('is so many feet along the shore, and metres again as soon as that is chosen', async () => {
    const { settings, context } = await inFeet();
    render(Nest, { props: { nest: 'W-014', part: '' }, context });
    expect(screen.getByText('405 ft from the zone’s origin')).toBeInTheDocument();
    settings.change({ measures: 'metric' });
    flushSync();
    expect(screen.getByText('123 m from the zone’s origin')).toBeInTheDocument();
  });

  test('is opened in feet, saved untouched, and nothing is written', async () => {
    const { log, router, context } = await inFeet();
    const before = await log.events();
    render(Nest, { props: { nest: 'W-014', part: 'record' }, context });
    const left = vi.spyOn(router, 'replace');
    expect(screen.getByLabelText('Feet along the shore')).toHaveValue('404.86');
    tap('Save the correction');
    await vi.waitFor(() => {
      expect(left).toHaveBeenCalled();
    });
    expect(await log.events()).toEqual(before);
  });

  test('is corrected in feet and kept in metres', async () => {
    const { season, context } = await inFeet();
    render(Nest, { props: { nest: 'W-014', part: 'record' }, context });
    type('Feet along the shore', '410');
    tap('Save the correction');
    await vi.waitFor(() => {
      expect(season.record.nests.get(nestId('W-014'))?.nest.shore_m).toBe(124.968);
    });
  });

  test('is registered in feet and kept in metres', async () => {
    const { season, context } = await inFeet();
    render(Register, { context });
    type('Name', 'W-021');
    type('Feet along the shore', '100');
    tap('Register');
    await vi.waitFor(() => {
      expect(season.record.nests.get(nestId('W-021'))?.nest.shore_m).toBe(30.48);
    });
  });
});
