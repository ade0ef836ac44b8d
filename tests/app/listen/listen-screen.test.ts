import { render, screen } from '@testing-library/svelte';
import { flushSync, tick } from 'svelte';
import { describe, expect, test } from 'vitest';
import ListenScreen from '../../../src/app/screens/listen/ListenScreen.svelte';
import { notesIn, scratchSeason, type ScratchOptions } from '../note/scratch-season.ts';
import { steadySound, walkingSound } from './fixture-sound.ts';
import { fakeTools } from './fake-tools.ts';

async function open(
  options: ScratchOptions = {},
  device: Parameters<typeof fakeTools>[0] = {},
  nest: string | null = 'W-014',
) {
  const made = await scratchSeason(options);
  const fake = fakeTools(device);
  const drawn = render(ListenScreen, { props: { nest, tools: fake.tools }, context: made.context });
  // The device is asked for its leave.
  await tick();
  return { ...made, ...fake, ...drawn };
}

function button(name: string): HTMLButtonElement {
  const found = [...document.querySelectorAll('button')].find((candidate) =>
    candidate.textContent.trim().startsWith(name),
  );
  if (found === undefined) throw new Error(`No button begins with “${name}”.`);
  return found;
}

async function start(): Promise<void> {
  button('Start listening').click();
  await screen.findByText('Stop listening');
}

describe('the Listen screen', () => {
  test('puts a reading into a note on one tap, and takes it back on another', async () => {
    const { hear, log } = await open();
    await start();
    hear(steadySound);
    flushSync();
    expect(document.querySelector('.word')?.textContent).toBe('steady');
    button('Note this at W-014').click();
    await screen.findByText('Saved on this device');
    const [note] = await notesIn(log);
    expect(note).toMatchObject({ nest: 'W-014', details: { instrument: 'microphone' } });
    expect(note?.details.scratch_per_min).toBeGreaterThan(50);
    expect(note?.details.meter_steady).toBeGreaterThan(0.5);
    expect(note?.details).not.toHaveProperty('sound');
    button('Undo').click();
    await screen.findByText('Note this at W-014');
    expect((await log.events()).map(({ kind }) => kind)).toContain('withdrawn');
  });

  test('asks for stillness while somebody walks, and notes nothing of it', async () => {
    const { hear } = await open();
    await start();
    hear(walkingSound);
    flushSync();
    expect(screen.getByRole('alert')).toHaveTextContent('Hold still: footsteps heard');
    expect(button('Note this at W-014')).toBeDisabled();
    button('Stop listening').click();
    flushSync();
    expect(document.querySelector('.word')?.textContent).toBe('can not tell');
    expect(document.body).toHaveTextContent('It can not be told from this listening');
  });

  test('keeps a clip with the note, shows its size, and lets it be taken out', async () => {
    const { hear, kept } = await open();
    await start();
    hear(steadySound);
    flushSync();
    button('Record a clip').click();
    hear(steadySound.subarray(0, 16_000 * 4));
    flushSync();
    button('End the clip').click();
    flushSync();
    expect(document.body).toHaveTextContent(/Clip of 4 s, 128 kB/);
    expect(kept.size).toBe(0);
    button('Note this at W-014').click();
    await screen.findByText(/Clips on this device: 128 kB of 21\.0 MB/);
    expect([...kept.values()][0]).toMatchObject({ nest: 'W-014' });
    button('Remove').click();
    await expect.poll(() => kept.size).toBe(0);
  });

  test('on the dark screen never brings up the browser’s question, a picker or a download', async () => {
    await open({}, { leave: 'to be asked' });
    expect(document.querySelector('input')).toBeNull();
    expect(document.body).toHaveTextContent('Allow it by daylight');
    expect(() => button('Start listening')).toThrow();
  });

  test('says what the device does to the sound although it was asked not to', async () => {
    const { hear } = await open({}, { leftOn: ['noise suppression', 'automatic gain'] });
    await start();
    hear(steadySound.subarray(0, 16_000 * 3));
    flushSync();
    expect(document.body).toHaveTextContent('keeps noise suppression and automatic gain on');
  });

  test.each([
    ['refused', 'Allow it in the settings'],
    ['no microphone', 'Plug it in'],
    ['in use elsewhere', 'such as a call'],
    ['not possible here', 'open a recording instead'],
    ['failed', 'reload the page'],
  ] as const)('says what to do when the microphone is %s', async (problem, advice) => {
    await open({ dark: false }, { problem });
    button('Start listening').click();
    expect(await screen.findByRole('alert')).toHaveTextContent(advice);
  });

  test('says that a call has the microphone, and goes on by itself when it is over', async () => {
    const { hear, tell } = await open();
    await start();
    hear(steadySound.subarray(0, 16_000 * 8));
    tell('interrupted');
    flushSync();
    expect(screen.getByRole('alert')).toHaveTextContent('Something else has the microphone');
    tell('resumed');
    hear(steadySound.subarray(16_000 * 8));
    flushSync();
    expect(screen.queryByRole('alert')).toBeNull();
    expect(document.querySelector('.word')?.textContent).toBe('steady');
  });

  test('says that the page was hidden or the screen locked, and what that cost', async () => {
    const { hear, hide, lose, show } = await open();
    await start();
    hear(steadySound.subarray(0, 16_000 * 3));
    hide();
    flushSync();
    expect(document.body).toHaveTextContent('not in front for a while');
    lose(30);
    show();
    flushSync();
    expect(document.body).toHaveTextContent('30 seconds did not arrive');
  });

  test('keeps what was heard when the microphone is unplugged, and says so', async () => {
    const { hear, tell } = await open();
    await start();
    hear(steadySound);
    tell('unplugged');
    flushSync();
    expect(document.body).toHaveTextContent('The microphone was unplugged');
    expect(button('Note this at W-014')).toBeEnabled();
  });
});
