import { render, screen, waitFor } from '@testing-library/svelte';
import { describe, expect, test } from 'vitest';
import Boil from '../../../src/app/screens/boil/Boil.svelte';
import { nestId, notesIn, noteBefore, scratchSeason } from '../note/scratch-season.ts';
import { tap } from '../hands.ts';

type Made = Awaited<ReturnType<typeof scratchSeason>>;

const show = (made: Made, nest: string | null = 'W-014') =>
  render(Boil, { props: { nest }, context: made.context });

/** The details of the notes of a nest, as they stand after corrections. */
const standing = (made: Made) =>
  [...(made.season.record.nests.get(nestId('W-014'))?.notes.values() ?? [])]
    .filter(({ withdrawn }) => !withdrawn)
    .map(({ fact }) => fact.details);

describe('counting a boil', () => {
  test('is on the device from the first tap, and ends with all that was tapped', async () => {
    const made = await scratchSeason();
    show(made);
    tap(/^One more, 0/);
    await waitFor(async () => expect(await notesIn(made.log)).toHaveLength(1));
    tap(/^One more, 1/);
    tap('+5');
    tap('Undo');
    tap('+5');
    tap(/^One more, 7/);
    tap('It is over: save');
    await screen.findByText('8 are on record. Saved on this device.');
    expect(await notesIn(made.log)).toHaveLength(1);
    const [details] = standing(made);
    expect(details).toMatchObject({
      emergence: 'boil',
      counting: 'part',
      emerged: 8,
      observer: 'Orla',
      reached_water: null,
    });
    expect(details?.watched_to).toBeTypeOf('string');
    expect(details?.first_out).toBe(details?.watched_from);
  });

  test('keeps on the screen what the device could not keep, and says so', async () => {
    const made = await scratchSeason();
    show(made);
    made.log.isFull = true;
    tap(/^One more, 0/);
    expect(await screen.findByRole('alert')).toHaveTextContent('The device is full');
    tap(/^One more, 1/);
    made.log.isFull = false;
    tap('It is over: save');
    await screen.findByText(/2 are on record/);
  });

  test('goes on from what is on the device when the screen is opened anew', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 5, {
      emergence: 'boil',
      counting: 'whole',
      emerged: 31,
      watched_from: '2026-08-01T21:05-04:00' as never,
    });
    show(made);
    expect(screen.getByRole('button', { name: 'One more, 31 so far' })).toBeInTheDocument();
    expect(screen.getByRole('button', { name: 'All of them' })).toHaveAttribute(
      'aria-pressed',
      'true',
    );
  });

  test('of which nothing is left after undoing is taken off the record', async () => {
    const made = await scratchSeason();
    show(made);
    tap(/^One more, 0/);
    await waitFor(async () => expect(await notesIn(made.log)).toHaveLength(1));
    tap('Undo');
    tap('It is over: save');
    await screen.findByText(/Nothing was counted/);
    expect(standing(made)).toEqual([]);
  });

  test('adds to what somebody else counted, and says who did', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 3, { observer: 'Bram', emergence: 'boil', emerged: 40 });
    const { container } = show(made);
    tap(/^One more, 0/);
    await waitFor(() => expect(container).toHaveTextContent('41 came up'));
    expect(container).toHaveTextContent('each one’s part added up: Bram and Orla');
  });

  test('a nest that came up on an earlier night is offered for stragglers', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 24 * 60, { emergence: 'boil', emerged: 80 });
    show(made);
    expect(screen.getByRole('heading', { name: 'Stragglers at W-014' })).toBeInTheDocument();
  });
});

describe('the way to the water', () => {
  test('is ticked step by step, each on record at once, and unticked by a second tap', async () => {
    const made = await scratchSeason();
    show(made);
    tap(/^Holes filled/);
    await waitFor(() => expect(standing(made)).toHaveLength(1));
    expect(standing(made)[0]?.way).toEqual(['holes']);
    expect(await screen.findByRole('button', { name: /done, Orla/ })).toBeInTheDocument();
    tap(/^Holes filled/);
    await waitFor(() => expect(standing(made)).toHaveLength(0));
  });
});

test('nothing on the dark screen can be typed into, nor is there a dead end without a nest', async () => {
  const made = await scratchSeason();
  const { container, unmount } = show(made);
  expect(container.querySelectorAll('input, select, textarea')).toHaveLength(0);
  unmount();
  show(made, 'W-999');
  expect(screen.getByText('No nest W-999 is on record here.')).toBeInTheDocument();
  tap('Nest W-014, 20 % tonight');
  expect(made.router.route).toEqual({ screen: 'boil', nest: 'W-014' });
});
