import { describe, expect, test } from 'vitest';
import { ListenState } from '../../../src/app/state/listen-state.svelte.ts';
import { meterDetails } from '../../../src/app/state/meter-note.ts';
import { readWav } from '../../../src/core/acoustics/wav.ts';
import { rushFile, steadySound, walkingSound } from './fixture-sound.ts';
import { fakeTools } from './fake-tools.ts';

async function listening(options: Parameters<typeof fakeTools>[0] = {}) {
  const fake = fakeTools(options);
  const listen = new ListenState(fake.tools);
  await listen.start();
  return { ...fake, listen };
}

describe('a listening', () => {
  test('counts as it goes, and more when it is over', async () => {
    const { listen, hear, isOpen } = await listening();
    hear(steadySound);
    expect(listen.reading).toMatchObject({ state: 'steady' });
    const before = listen.reading?.usable_s ?? 0;
    listen.stop();
    expect(listen.listening).toEqual({ phase: 'over', why: 'stopped' });
    expect(listen.reading?.usable_s).toBeGreaterThan(before);
    expect(isOpen()).toBe(false);
  });

  test('ends by itself when its time is up', async () => {
    const { listen, hear, isOpen } = await listening();
    listen.choosePeriod(10);
    hear(steadySound);
    expect(listen.listening).toEqual({ phase: 'over', why: 'time is up' });
    expect(listen.reading?.heard_s).toBeLessThan(11);
    expect(isOpen()).toBe(false);
  });

  test('ends when the microphone is unplugged, and keeps what was heard', async () => {
    const { listen, hear, tell } = await listening();
    hear(steadySound.subarray(0, 16_000 * 12));
    tell('unplugged');
    expect(listen.listening).toEqual({ phase: 'over', why: 'unplugged' });
    expect(listen.reading?.events.length).toBeGreaterThan(5);
  });

  test('waits while something else has the microphone, and says how much is missing', async () => {
    const { listen, hear, tell, hide, lose } = await listening();
    hear(steadySound.subarray(0, 16_000 * 4));
    tell('interrupted');
    expect(listen.isInterrupted).toBe(true);
    hide();
    lose(25);
    tell('resumed');
    hear(steadySound.subarray(0, 16_000 * 2));
    expect(listen.isInterrupted).toBe(false);
    expect(listen.wasHidden).toBe(true);
    expect(listen.missed_s).toBeGreaterThan(24);
    expect(listen.missed_s).toBeLessThan(28);
  });

  test('says what is missing as soon as the page is seen again, though nothing arrives yet', async () => {
    const { listen, hear, hide, show, lose } = await listening();
    hear(steadySound.subarray(0, 16_000 * 4));
    hide();
    lose(40);
    show();
    expect(listen.missed_s).toBeGreaterThan(39);
  });

  test('a page that was hidden and lost nothing misses nothing', async () => {
    const { listen, hear, hide, show } = await listening();
    hide();
    hear(steadySound.subarray(0, 16_000 * 4));
    show();
    expect(listen.missed_s).toBe(0);
    expect(listen.wasHidden).toBe(true);
  });

  test('that cannot begin says why', async () => {
    const { listen } = await listening({ problem: 'in use elsewhere' });
    expect(listen.listening).toEqual({ phase: 'could not', problem: 'in use elsewhere' });
    expect(listen.reading).toBeNull();
  });

  test('begun anew forgets the one before', async () => {
    const { listen, hear } = await listening();
    hear(steadySound);
    await listen.start();
    expect(listen.reading).toBeNull();
    expect(listen.trace).toEqual([]);
  });
});

describe('a clip', () => {
  test('holds nothing from before it was asked for, and ends after 20 seconds', async () => {
    const { listen, hear } = await listening();
    const sound = steadySound;
    hear(sound.subarray(0, 16_000 * 3));
    expect(listen.takeClip()).toBeNull();
    listen.recordClip();
    hear(sound.subarray(16_000 * 3));
    hear(sound);
    const clip = listen.takeClip();
    expect(clip?.seconds).toBeCloseTo(20, 0);
    const read = readWav(clip?.sound ?? new Uint8Array());
    if (!read.ok) throw new Error(read.message);
    const first = sound[16_000 * 3 + 200] ?? 0;
    expect(Math.abs((read.wav.read(200, 201)[0] ?? 9) - first)).toBeLessThan(1e-4);
  });

  test('can be let go', async () => {
    const { listen, hear } = await listening();
    listen.recordClip();
    hear(steadySound.subarray(0, 16_000));
    listen.discardClip();
    expect(listen.takeClip()).toBeNull();
  });
});

describe('a recording', () => {
  test('is looked through as a listening is', async () => {
    const listen = new ListenState(fakeTools().tools);
    await listen.openFile('night.wav', rushFile);
    expect(listen.listening).toEqual({ phase: 'file', name: 'night.wav', note: null });
    expect(listen.reading?.state).toBe('waterfall');
  });

  test('that nothing can read is named, with what to do', async () => {
    const listen = new ListenState(fakeTools().tools);
    await listen.openFile('letter.wav', new Uint8Array([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]));
    expect(listen.listening).toMatchObject({ phase: 'could not read' });
    expect(JSON.stringify(listen.listening)).toMatch(/letter\.wav: It is no WAV file.*Save/);
  });
});

describe('what goes into a note', () => {
  test('is numbers: the rate, the share, the level and the four likelihoods', async () => {
    const { listen, hear } = await listening();
    hear(steadySound);
    listen.stop();
    const details = meterDetails(listen.reading!, 'probe');
    expect(details).toMatchObject({ instrument: 'probe' });
    expect(Object.keys(details ?? {}).sort()).toEqual([
      'active_share',
      'instrument',
      'level_db',
      'meter_occasional',
      'meter_quiet',
      'meter_steady',
      'meter_waterfall',
      'scratch_per_min',
    ]);
  });

  test('is nothing when it could not be told', async () => {
    const { listen, hear } = await listening();
    hear(walkingSound);
    listen.stop();
    expect(meterDetails(listen.reading!, 'microphone')).toBeNull();
  });
});
