import { render, screen, waitFor, within } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { describe, expect, test } from 'vitest';
import Nest from '../../../src/app/screens/nest/Nest.svelte';
import Register from '../../../src/app/screens/nest/Register.svelte';
import { nestId, noteBefore, notesIn, scratchSeason } from '../note/scratch-season.ts';

type Made = Awaited<ReturnType<typeof scratchSeason>>;

function show(made: Made, nest = 'W-014', part = '') {
  return render(Nest, { props: { nest, part }, context: made.context });
}

function button(name: string, within: ParentNode = document): HTMLButtonElement {
  const found = [...within.querySelectorAll('button')].find((candidate) =>
    (candidate.getAttribute('aria-label') ?? candidate.textContent).trim().startsWith(name),
  );
  if (found === undefined) throw new Error(`No button begins with “${name}”.`);
  return found;
}

function tap(name: string): void {
  button(name).click();
  flushSync();
}

describe('a nest’s standing', () => {
  test('a nest that waits shows its chance, and never certainty', async () => {
    const made = await scratchSeason();
    const { container } = show(made);
    expect(container.querySelector('.chance')).toHaveTextContent('20 % tonight');
    expect(container).toHaveTextContent('1 night left (0 to 5)');
    expect(container).toHaveTextContent('Nobody has noted anything here yet');
  });

  test('a nest of unknown lay night says that only cues move it', async () => {
    const made = await scratchSeason({ nests: { 'W-014': { lay_night: null } } });
    show(made);
    expect(screen.getByText(/The night it was laid is not known/)).toBeInTheDocument();
  });

  test('a nest that came up says when, and shows no chance', async () => {
    const made = await scratchSeason({ out: { 'W-014': 'boiled' } });
    const { container } = show(made);
    expect(container.querySelector('.over')).toHaveTextContent(
      'It came up on the night of Thu 30 Jul',
    );
    expect(container.querySelector('.chance')).toBeNull();
  });

  test('a nest that the sea took says what to do if that was a mistake', async () => {
    const made = await scratchSeason({ out: { 'W-014': 'washed out' } });
    const { container } = show(made);
    expect(container.querySelector('.over')).toHaveTextContent('correct or withdraw the note');
  });

  test('a name that is not on record leads on', async () => {
    const made = await scratchSeason();
    show(made, 'W-999');
    expect(screen.getByText('No nest of this name is on record here.')).toBeInTheDocument();
    expect(document.querySelector('a[href="#/register"]')).not.toBeNull();
  });
});

test('the chances stand in a table too, with what is past and never', async () => {
  const made = await scratchSeason();
  const { container } = show(made);
  const rows = [...container.querySelectorAll('details tbody tr')].map((row) =>
    [...row.children].map((cell) => cell.textContent.trim()),
  );
  expect(rows[0]).toEqual(['Sat 1 Aug, tonight', '20 %']);
  expect(rows.at(-2)).toEqual(['came up unseen', '10 %']);
  expect(rows.at(-1)).toEqual(['never', '10 %']);
});

test('every reason has its factor and its words', async () => {
  const made = await scratchSeason();
  await noteBefore(made, 'W-014', 20, { surface: 'depression' });
  show(made);
  expect(await screen.findByText('depression noted')).toHaveTextContent('×2.0 depression noted');
});

describe('a note', () => {
  test('is withdrawn after a second tap, stays in sight, and can be put back', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 20, { surface: 'depression' });
    show(made);
    tap('Withdraw');
    expect(made.season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(1);
    tap('Yes, withdraw');
    await screen.findByText('withdrawn');
    expect(made.season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(0);
    tap('Put it back');
    await waitFor(() => expect(screen.queryByText('withdrawn')).toBeNull());
    expect(made.season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(1);
    expect(await notesIn(made.log)).toHaveLength(1);
  });

  test('that could not be withdrawn says why and stands', async () => {
    const made = await scratchSeason();
    await noteBefore(made, 'W-014', 20, { surface: 'depression' });
    show(made);
    made.log.isFull = true;
    tap('Withdraw');
    tap('Yes, withdraw');
    expect(await screen.findByRole('alert')).toHaveTextContent('The device is full');
    expect(made.season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(1);
  });

  test('is corrected by an event that names only what changed, and shows its history', async () => {
    const made = await scratchSeason();
    const id = await noteBefore(made, 'W-014', 20, { surface: 'depression', sound: 'quiet' });
    const { unmount } = show(made, 'W-014', `correct/${id}`);
    expect(button('Nothing changed yet')).toBeDisabled();
    tap('dip');
    tap('Save the correction');
    await waitFor(() => expect(made.router.route).toMatchObject({ screen: 'nest', part: '' }));
    const corrections = (await made.log.events()).filter((event) => event.kind === 'corrected');
    expect(corrections.map(({ target, changes }) => [target, changes])).toEqual([
      [id, { surface: 'dip' }],
    ]);
    unmount();
    show(made);
    expect(screen.getByText('corrected')).toBeInTheDocument();
    tap('History');
    expect(screen.getByText(/surface from depression to dip/)).toHaveTextContent('Orla');
  });

  test('goes to another nest when it was noted at the wrong one', async () => {
    const made = await scratchSeason();
    const id = await noteBefore(made, 'W-014', 20, { surface: 'dip' });
    show(made, 'W-014', `correct/${id}`);
    tap('It was another nest');
    tap('Nest W-007');
    tap('Save the correction');
    await waitFor(() => expect(made.router.route).toMatchObject({ nest: 'W-007' }));
    expect(made.season.record.nests.get(nestId('W-007'))?.visits).toHaveLength(1);
    expect(made.season.record.nests.get(nestId('W-014'))?.visits).toHaveLength(0);
  });

  test('has a later end of its watch added by daylight', async () => {
    const made = await scratchSeason({ dark: false });
    const id = await noteBefore(made, 'W-014', 60, { watched_from: null, surface: 'dip' });
    show(made, 'W-014', `correct/${id}`);
    const remark = screen.getByLabelText('Remark');
    expect(remark).toBeInstanceOf(HTMLTextAreaElement);
    if (!(remark instanceof HTMLTextAreaElement)) return;
    remark.value = 'fox tracks beside it';
    remark.dispatchEvent(new Event('input', { bubbles: true }));
    flushSync();
    tap('Save the correction');
    await waitFor(() => expect(made.router.route).toMatchObject({ part: '' }));
    const corrected = (await made.log.events()).find((event) => event.kind === 'corrected');
    expect(corrected?.changes).toEqual({ note: 'fox tracks beside it' });
  });
});

describe('on the dark screen', () => {
  test('neither the nest nor a correction holds anything to type into', async () => {
    const made = await scratchSeason();
    const id = await noteBefore(made, 'W-014', 20, { surface: 'dip' });
    for (const part of ['', `correct/${id}`, 'record']) {
      const { container, unmount } = show(made, 'W-014', part);
      expect(container.querySelectorAll('input, select, textarea')).toHaveLength(0);
      unmount();
    }
  });

  test('a new nest waits for the day screen', async () => {
    const made = await scratchSeason();
    const { container } = render(Register, { context: made.context });
    expect(container).toHaveTextContent('It waits for the day screen');
    expect(container.querySelectorAll('input, select, textarea')).toHaveLength(0);
  });
});

describe('by daylight', () => {
  function write(label: string, text: string): void {
    const field = screen.getByLabelText(label);
    if (!(field instanceof HTMLInputElement)) throw new Error(`${label} is not a field`);
    field.value = text;
    field.dispatchEvent(new Event('input', { bubbles: true }));
    flushSync();
  }

  test('a nest is registered by its name alone; the rest is not known, never zero', async () => {
    const made = await scratchSeason({ dark: false });
    render(Register, { context: made.context });
    write('Name', 'W-021');
    tap('Register');
    await waitFor(() => expect(made.router.route).toMatchObject({ nest: 'W-021' }));
    const nest = made.season.record.nests.get(nestId('W-021'))?.nest;
    expect(nest).toMatchObject({ layNight: null, shore_m: null, clutch_eggs: null });
  });

  test('a name that is taken is refused, and nothing is written', async () => {
    const made = await scratchSeason({ dark: false });
    const before = (await made.log.events()).length;
    const { container } = render(Register, { context: made.context });
    write('Name', 'W-014');
    tap('Register');
    expect(container).toHaveTextContent('W-014 is on record already. Choose another name.');
    expect(await made.log.events()).toHaveLength(before);
  });

  test('a cleared field corrects the nest to "not known"', async () => {
    const made = await scratchSeason({ dark: false, nests: { 'W-014': { clutch: 110 } } });
    show(made, 'W-014', 'record');
    write('Eggs', '');
    tap('Save the correction');
    await waitFor(() => expect(made.router.route).toMatchObject({ part: '' }));
    const corrected = (await made.log.events()).find((event) => event.kind === 'corrected');
    expect(corrected?.changes).toEqual({ clutch: null });
    expect(made.season.record.nests.get(nestId('W-014'))?.nest.clutch_eggs).toBeNull();
  });
});

test('notes stand newest first, a few at a time', async () => {
  const made = await scratchSeason();
  for (let index = 0; index < 13; index++) {
    await noteBefore(made, 'W-014', 20 + index * 30, { surface: 'smooth' });
  }
  const { container } = show(made);
  const notes = (): readonly Element[] => [...container.querySelectorAll('.side ul > li')];
  expect(notes()).toHaveLength(10);
  expect(notes()[0]).toHaveTextContent('Sat 1 Aug 20:50');
  tap('Older notes (3)');
  expect(notes()).toHaveLength(13);
  expect(within(container).queryByText(/Older notes/)).toBeNull();
});
