import { render, screen, within } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import Tonight from '../../../src/app/screens/tonight/Tonight.svelte';
import { nestId, type ScratchOptions, scratchSeason } from '../note/scratch-season.ts';

// jsdom lays nothing out, so it has none; the drawing keeps its first width.
beforeAll(() => {
  vi.stubGlobal(
    'ResizeObserver',
    class {
      readonly observe = vi.fn();
      readonly unobserve = vi.fn();
      readonly disconnect = vi.fn();
    },
  );
});

async function open(options: ScratchOptions = {}) {
  const made = await scratchSeason(options);
  return { ...made, ...render(Tonight, { context: made.context }) };
}

const many = (count: number): NonNullable<ScratchOptions['nests']> =>
  Object.fromEntries(Array.from({ length: count }, (_, index) => [`W-${index + 100}`, {}]));

const rows = (): HTMLElement[] => [...document.querySelectorAll<HTMLElement>('.ranking ol > li')];

describe('Tonight', () => {
  test('reads each nest as a sentence', async () => {
    await open();
    expect(
      screen.getByRole('link', {
        name: 'Nest W-014, 20 percent tonight, no look yet, 1 night left between 0 and 5',
      }),
    ).toBeInTheDocument();
  });

  test('a why opens in place, with each piece of evidence and its factor', async () => {
    const { season } = await open();
    await season.note(nestId('W-014'), { surface: 'depression' });
    await season.reckon();
    flushSync();
    const row = rows().find((one) => one.textContent.includes('W-014'));
    if (row === undefined) throw new Error('W-014 is not in the list');
    within(row).getByText('Why').click();
    expect(await within(row).findByText('×2.0')).toBeInTheDocument();
    expect(within(row).getByText('depression noted')).toBeInTheDocument();
  });

  test('a thousand nests are drawn a slice at a time', async () => {
    await open({ nests: many(60) });
    expect(rows()).toHaveLength(10);
    screen.getByText('Show 10 more of 50').click();
    flushSync();
    expect(rows()).toHaveLength(20);
  });

  test('a zone narrows the list', async () => {
    await open({ nests: { 'W-1': {}, 'E-1': { zone: 'East' }, 'E-2': { zone: 'East' } } });
    screen.getByRole('button', { name: 'East' }).click();
    flushSync();
    expect(rows().map((row) => row.querySelector('strong')?.textContent)).toEqual(['E-1', 'E-2']);
  });

  test('nests that are out of the ranking are folded below, with reason and night', async () => {
    await open({ out: { 'W-007': 'boiled', 'W-001': 'washed out' } });
    expect(rows()).toHaveLength(1);
    expect(screen.getByText('Out of the ranking: 1 boiled, 1 washed out')).toBeInTheDocument();
    expect(screen.getByText(/boiled, night of Thu 30 Jul/)).toBeInTheDocument();
  });

  test('the scale of the beach is in the measures chosen', async () => {
    const { settings } = await open({ measures: 'feet', nests: { 'W-1': { shore_m: 2000 } } });
    const scale = (): string | null =>
      document.querySelector('.scale + .unit')?.textContent ?? null;
    expect(scale()).toBe('1000 ft');
    settings.change({ measures: 'metric' });
    flushSync();
    expect(scale()).toBe('500 m');
  });

  test('an empty season says what to do next', async () => {
    await open({ nests: {}, dark: false });
    expect(screen.getByRole('link', { name: 'Bring my tables' })).toHaveAttribute(
      'href',
      '#/programme/import',
    );
    expect(screen.getByRole('link', { name: 'Register a nest' })).toBeInTheDocument();
  });

  test('by day a nest can be sought by name, at night nothing can be typed', async () => {
    const day = await open({ nests: many(20), dark: false });
    expect(screen.getByLabelText('Find a nest')).toBeInTheDocument();
    day.unmount();
    await open({ nests: many(20), dark: true });
    expect(document.querySelectorAll('input, select, textarea')).toHaveLength(0);
  });
});
