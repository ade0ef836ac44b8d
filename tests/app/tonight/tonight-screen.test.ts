import { render, screen, within } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { beforeAll, describe, expect, test, vi } from 'vitest';
import Opening from '../../../src/app/screens/shell/Opening.svelte';
import Tonight from '../../../src/app/screens/tonight/Tonight.svelte';
import { tonightAt } from '../../../src/app/state/evening.ts';
import { addNights } from '../../../src/core/domain/night.ts';
import type { Glance } from '../../../src/core/forecast/glance.ts';
import {
  instant_ms,
  nestId,
  type ScratchOptions,
  scratchSeason,
  zone,
} from '../note/scratch-season.ts';

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

/** How the odds stood at some moment, of the night of 1 August and those after. */
const glanceFrom = (at: string): Glance => ({
  at_ms: instant_ms(at),
  zone,
  programme: 'Invented coast',
  nights: [0, 1, 2].map((ahead) => ({
    night: addNights(tonightAt(instant_ms('2026-08-01T21:10-04:00'), zone), ahead),
    nests: [
      { nest: 'W-014', zone: 'West', p: 0.38 },
      { nest: 'W-001', zone: null, p: 0.004 },
    ],
  })),
});

describe('until the odds are worked out', () => {
  test('Tonight shows how they stood, says when that was, and offers each nest', async () => {
    await open({ isYoung: true, glance: glanceFrom('2026-08-01T18:40-04:00') });
    expect(screen.getByRole('status')).toHaveTextContent('As the odds stood at 18:40.');
    const first = screen.getByRole('link', { name: 'Nest W-014, 38 percent tonight' });
    expect(first).toHaveAttribute('href', '#/nest/W-014');
    screen.getByRole('link', { name: 'Nest W-001, less than 1 percent tonight' });
    expect(rows()).toEqual([]);
  });

  test('the ranking takes its place', async () => {
    const { season } = await open({ isYoung: true, glance: glanceFrom('2026-08-01T18:40-04:00') });
    await season.reckon();
    flushSync();
    expect(screen.queryByText(/As the odds stood/)).toBeNull();
    expect(rows()).toHaveLength(3);
  });

  test('odds of another day say so', async () => {
    const now = '2026-08-02T20:00-04:00';
    await open({ now, isYoung: true, glance: glanceFrom('2026-08-01T22:10-04:00') });
    expect(screen.getByRole('status')).toHaveTextContent(
      'As the odds of tonight stood on Sat 1 Aug, 22:10.',
    );
  });

  test('odds that say nothing of tonight are not shown', async () => {
    const now = '2026-08-09T20:00-04:00';
    await open({ now, isYoung: true, glance: glanceFrom('2026-08-01T22:10-04:00') });
    expect(screen.getByRole('status')).toHaveTextContent('They are being worked out anew');
    expect(screen.queryByRole('link', { name: /^Nest W-014/ })).toBeNull();
  });

  test('while the record is opened they stand there as well, on the way to Tonight alone', async () => {
    const glance = glanceFrom('2026-08-01T18:40-04:00');
    const { context, router } = await scratchSeason();
    const { unmount } = render(Opening, { context, props: { name: 'own', glance } });
    screen.getByRole('link', { name: 'Nest W-014, 38 percent tonight' });
    expect(screen.getByRole('status')).toHaveTextContent('The record is being opened');
    unmount();
    router.go({ screen: 'help' });
    render(Opening, { context, props: { name: 'own', glance } });
    expect(screen.getByRole('status')).toHaveTextContent('Opening your season');
  });
});

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
