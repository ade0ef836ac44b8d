import { render, screen, waitFor, within } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { describe, expect, test, vi } from 'vitest';
import Note from '../../../src/app/screens/note/Note.svelte';
import { type ScratchOptions, noteBefore, notesIn, scratchSeason } from './scratch-season.ts';

async function open(options: ScratchOptions = {}, nest: string | null = null) {
  const made = await scratchSeason(options);
  const drawn = render(Note, { props: { nest }, context: made.context });
  return { ...made, ...drawn };
}

/** The button whose name begins so. Asking by role reckons with the style of every element: too slow. */
function button(name: string): HTMLButtonElement {
  const found = [...document.querySelectorAll('button')].find((candidate) =>
    (candidate.getAttribute('aria-label') ?? candidate.textContent).trim().startsWith(name),
  );
  if (found === undefined) throw new Error(`No button begins with “${name}”.`);
  return found;
}

function tap(name: string): void {
  button(name).click();
  flushSync();
}

async function saved(): Promise<void> {
  await screen.findByText('Saved on this device');
}

describe('three taps', () => {
  test('nest, surface and sound make exactly one note with what was said', async () => {
    const { log } = await open();
    tap('Nest W-014');
    tap('dip');
    expect(await notesIn(log)).toHaveLength(0);
    tap('steady');
    await saved();
    const notes = await notesIn(log);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatchObject({
      nest: 'W-014',
      at: '2026-08-01T21:10-04:00',
      author: 'Orla',
      details: {
        kind: 'evening',
        observer: 'Orla',
        experience: 'trained',
        surface: 'dip',
        sound: 'steady',
      },
    });
    expect(Object.keys(notes[0]?.details ?? {}).sort()).toEqual([
      'experience',
      'kind',
      'observer',
      'sound',
      'surface',
    ]);
  });

  test('may come in any order', async () => {
    const { log } = await open();
    tap('waterfall');
    tap('caved');
    tap('Nest W-001');
    await saved();
    expect(
      (await notesIn(log)).map(({ nest, details }) => [nest, details.surface, details.sound]),
    ).toEqual([['W-001', 'caved', 'waterfall']]);
  });

  test('not listened is saved as no sound at all, not as quiet', async () => {
    const { log } = await open();
    tap('Nest W-014');
    tap('smooth');
    tap('not listened');
    await saved();
    expect((await notesIn(log))[0]?.details).not.toHaveProperty('sound');
  });

  test('come down to two where the nest is known from the screen before', async () => {
    const { log } = await open({}, 'W-007');
    tap('depression');
    tap('quiet');
    await saved();
    expect((await notesIn(log))[0]?.nest).toBe('W-007');
  });

  test('a second tap of the same finger right after the third begins no other note', async () => {
    const { log } = await open();
    tap('Nest W-014');
    tap('dip');
    tap('steady');
    tap('steady');
    await saved();
    tap('Nest W-007');
    tap('smooth');
    expect(await notesIn(log)).toHaveLength(1);
  });

  test('a surface without a sound is saved by the button', async () => {
    const { log } = await open();
    tap('Nest W-014');
    tap('depression');
    tap('Save without sound');
    await saved();
    expect((await notesIn(log))[0]?.details.surface).toBe('depression');
  });

  test('nothing can be saved before there is something to say', async () => {
    await open();
    const save = button('Save without sound');
    expect(save).toBeDisabled();
    tap('Nest W-014');
    await waitFor(() => expect(button('Nest W-014')).toHaveAttribute('aria-pressed', 'true'));
    expect(save).toBeDisabled();
  });
});

test('Saved is not said before the device has said so', async () => {
  const { log } = await open();
  let answer: () => void = () => undefined;
  vi.spyOn(log, 'append').mockReturnValue(
    new Promise((resolve) => {
      answer = () => {
        resolve({ ok: true, added: 1 });
      };
    }),
  );
  tap('Nest W-014');
  tap('dip');
  tap('quiet');
  await screen.findByText('Saving …');
  expect(screen.queryByText('Saved on this device')).toBeNull();
  answer();
  await saved();
});

describe('undo', () => {
  test('withdraws the note and says nothing is left to undo', async () => {
    const { log, season } = await open();
    tap('Nest W-014');
    tap('dip');
    tap('steady');
    await saved();
    tap('Undo');
    await waitFor(() => expect(screen.queryByText('Saved on this device')).toBeNull());
    const events = await log.events();
    const note = events.find((event) => event.kind === 'visit-noted');
    const withdrawn = events.filter((event) => event.kind === 'withdrawn');
    expect(withdrawn.map(({ target }) => target)).toEqual([note?.id]);
    expect([...season.record.nests.values()].flatMap(({ visits }) => visits)).toEqual([]);
  });

  test('is offered for a minute, and then the way to correct', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    try {
      const { clock } = await open();
      tap('Nest W-014');
      tap('dip');
      tap('steady');
      await saved();
      expect(button('Undo')).toBeInTheDocument();
      clock.pass(61_000);
      vi.advanceTimersByTime(1000);
      await waitFor(() => expect(document.querySelector('.rest')).toBeNull());
      expect(screen.getByRole('link', { name: 'Add to it or correct it' })).toBeInTheDocument();
    } finally {
      vi.useRealTimers();
    }
  });
});

describe('a device that is full', () => {
  test('keeps the note on the screen, says what to do, and saves it on the next try', async () => {
    const { log, clock } = await open();
    log.isFull = true;
    tap('Nest W-014');
    tap('dip');
    tap('steady');
    const card = await screen.findByRole('alert');
    expect(card).toHaveTextContent('Not saved: W-014 · dip · steady (21:10)');
    expect(card).toHaveTextContent('The device is full. Free some space');
    expect(screen.queryByText('Saved on this device')).toBeNull();
    log.isFull = false;
    clock.pass(120_000);
    tap('Try again');
    await saved();
    const notes = await notesIn(log);
    expect(notes.map(({ at, details }) => [at, details.sound])).toEqual([
      ['2026-08-01T21:10-04:00', 'steady'],
    ]);
    expect(screen.queryByRole('alert')).toBeNull();
  });

  test('loses nothing when one leaves the screen and comes back', async () => {
    const { log, context, unmount } = await open();
    log.isFull = true;
    tap('Nest W-014');
    tap('dip');
    tap('steady');
    await screen.findByRole('alert');
    unmount();
    render(Note, { props: { nest: null }, context });
    expect(await screen.findByRole('alert')).toHaveTextContent('W-014 · dip · steady');
  });
});

describe('the extras', () => {
  test('go into the note, and the weather stays for the next one', async () => {
    const { log, clock } = await open();
    const choose = (question: string, answer: string): void => {
      within(screen.getByRole('group', { name: question }))
        .getByRole('button', { name: answer })
        .click();
    };
    choose('Wind', 'strong');
    choose('Rain', 'light');
    choose('Listened with', 'probe');
    tap('Nest W-014');
    tap('dip');
    tap('quiet');
    await saved();
    clock.pass(300_000);
    tap('Nest W-007');
    tap('smooth');
    tap('not listened');
    await waitFor(async () => expect(await notesIn(log)).toHaveLength(2));
    const [first, second] = await notesIn(log);
    expect(first?.details).toMatchObject({ wind: 'strong', rain: 'light', instrument: 'probe' });
    expect(second?.details).toMatchObject({ wind: 'strong', rain: 'light' });
    expect(second?.details).not.toHaveProperty('instrument');
  });

  test('a washout needs a second tap before it is in the note', async () => {
    const { log } = await open({}, 'W-014');
    tap('washout');
    await screen.findByText(/Is that what happened/);
    expect(button('Save without sound')).toBeDisabled();
    tap('Yes, washout');
    await waitFor(() => expect(button('Save without sound')).toBeEnabled());
    tap('Save without sound');
    await saved();
    expect((await notesIn(log))[0]?.details.event).toBe('washout');
  });
});

describe('a watch', () => {
  test('begins as a note and is ended by a correction, with the hatchlings counted', async () => {
    const { log, clock, season } = await open({}, 'W-014');
    tap('Start watching now');
    await screen.findByText(/Watching/);
    expect((await notesIn(log))[0]?.details).toMatchObject({
      watched_from: '2026-08-01T21:10-04:00',
    });
    clock.pass(95 * 60_000);
    tap('End watch');
    const card = await screen.findByRole('group', { name: 'Watch at W-014' });
    (await within(card).findByRole('button', { name: 'none came' })).click();
    await waitFor(() => expect(button('End watch now')).toBeEnabled());
    tap('End watch now');
    await waitFor(() => expect(screen.queryByRole('group', { name: 'Watch at W-014' })).toBeNull());
    const visit = [...season.record.nests.values()].flatMap(({ visits }) => visits)[0];
    expect(visit?.watch).toEqual({
      from_ms: Date.parse('2026-08-02T01:10Z'),
      to_ms: Date.parse('2026-08-02T02:45Z'),
    });
    expect(visit?.emerged).toBe(0);
  });
});

describe('in the morning', () => {
  const morning = { now: '2026-08-02T06:05-04:00' };

  test('tracks are asked first; no tracks completes the note', async () => {
    const { log } = await open(morning);
    expect(screen.getByRole('heading', { name: 'Morning note' })).toBeInTheDocument();
    tap('Nest W-014');
    tap('smooth');
    tap('none seen');
    await saved();
    expect((await notesIn(log))[0]?.details).toMatchObject({
      kind: 'morning',
      tracks: 0,
      surface: 'smooth',
    });
  });

  test('counting saves nothing by itself', async () => {
    const { log } = await open(morning);
    tap('Nest W-014');
    tap('caved');
    tap('five more');
    tap('five more');
    tap('one more');
    expect(await notesIn(log)).toHaveLength(0);
    await waitFor(() => expect(button('Save')).toBeEnabled());
    tap('Save');
    await saved();
    expect((await notesIn(log))[0]?.details.tracks).toBe(11);
  });
});

describe('finding the nest', () => {
  test('the strip lies in the order of the shore', async () => {
    await open();
    const strip = screen.getByRole('group', { name: 'Nests along the shore' });
    const names = within(strip)
      .getAllByRole('button', { name: /^Nest/ })
      .map((button) => button.getAttribute('aria-label')?.split(',')[0]);
    expect(names).toEqual(['Nest W-001', 'Nest W-007', 'Nest W-014']);
  });

  test('the pad narrows by digits, leading zeros free', async () => {
    await open();
    tap('By number');
    const pad = await screen.findByRole('group', { name: 'Nest number' });
    within(pad).getByRole('button', { name: '1' }).click();
    await within(pad).findByRole('button', { name: 'W-014' });
    within(pad).getByRole('button', { name: '4' }).click();
    await waitFor(() => expect(within(pad).queryByRole('button', { name: 'W-001' })).toBeNull());
    within(pad).getByRole('button', { name: 'W-014' }).click();
    await waitFor(() => expect(button('Nest W-014')).toHaveAttribute('aria-pressed', 'true'));
  });

  test('a nest noted this evening says when', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-007', 25, { surface: 'dip' });
    render(Note, { props: { nest: null }, context: made.context });
    expect(button('Nest W-007, ✓ 20:45 noted, 20 % tonight')).toBeInTheDocument();
  });
});

describe('who notes', () => {
  test('is asked once, from the list of people, without typing', async () => {
    const { settings } = await open({ author: null, people: ['Bram', 'Cato'] });
    tap('Cato');
    await screen.findByText(/as Cato/);
    expect(settings.now.author).toBe('Cato');
  });

  test('does not keep anyone from noting', async () => {
    const { log } = await open({ author: null });
    tap('Note without a name');
    await screen.findByText('Which nest?');
    tap('Nest W-014');
    tap('dip');
    tap('quiet');
    await saved();
    expect((await notesIn(log))[0]?.details).not.toHaveProperty('observer');
  });
});

test('nothing on the screen opens a keyboard or a picker', async () => {
  const { container } = await open();
  tap('By number');
  await screen.findByRole('group', { name: 'Nest number' });
  expect(container.querySelectorAll('input, select, textarea, [contenteditable]')).toHaveLength(0);
});

test('a season without nests says what to do', async () => {
  await open({ nests: {} });
  expect(screen.getByRole('link', { name: 'register a nest' })).toHaveAttribute(
    'href',
    '#/register',
  );
});
