import { afterEach, describe, expect, test, vi } from 'vitest';
import {
  type SoundDevice,
  microphoneLeave,
  openMicrophone,
} from '../../../src/edges/device/microphone.ts';

const none: SoundDevice = { devices: null, permissions: null, newContext: null };

/** A device on which opening the microphone fails as the browser names it. */
function failing(name: string): SoundDevice {
  const error = new Error('as a browser would say');
  error.name = name;
  return {
    ...none,
    devices: { getUserMedia: () => Promise.reject(error) },
    newContext: () => {
      throw new Error('Nothing to hear.');
    },
  };
}

/** What the browser says of leave, asked without a question appearing. */
function saying(state: PermissionState | null): SoundDevice {
  const query = () =>
    state === null
      ? Promise.reject(new TypeError('no such permission'))
      : Promise.resolve({ state } as PermissionStatus);
  return { ...failing('NotFoundError'), permissions: { query } };
}

describe('the microphone', () => {
  test('says whether it may be used without a question', async () => {
    expect(await microphoneLeave(saying('granted'))).toBe('given');
    expect(await microphoneLeave(saying('prompt'))).toBe('to be asked');
    expect(await microphoneLeave(saying('denied'))).toBe('refused');
    expect(await microphoneLeave(saying(null))).toBe('not known');
    expect(await microphoneLeave(none)).toBe('refused');
  });

  test.each([
    ['NotAllowedError', 'refused'],
    ['NotFoundError', 'no microphone'],
    ['NotReadableError', 'in use elsewhere'],
    ['TypeError', 'failed'],
  ])('%s is told as %s', async (name, problem) => {
    const opened = await openMicrophone(
      () => undefined,
      () => undefined,
      failing(name),
    );
    expect(opened).toEqual({ ok: false, problem });
  });

  test('a browser that cannot listen says so', async () => {
    const opened = await openMicrophone(
      () => undefined,
      () => undefined,
      none,
    );
    expect(opened).toEqual({ ok: false, problem: 'not possible here' });
  });

  test('asks that nothing change the sound', async () => {
    let asked: unknown;
    const device: SoundDevice = {
      ...failing('NotFoundError'),
      devices: {
        getUserMedia: (constraints) => {
          asked = constraints;
          return Promise.reject(new Error('enough'));
        },
      },
    };
    await openMicrophone(
      () => undefined,
      () => undefined,
      device,
    );
    expect(asked).toEqual({
      audio: { echoCancellation: false, noiseSuppression: false, autoGainControl: false },
    });
  });
});

describe('an open microphone', () => {
  afterEach(() => {
    vi.unstubAllGlobals();
  });

  /** A browser whose microphone a test can mute, stop and interrupt. */
  async function opened() {
    vi.stubGlobal('document', new EventTarget());
    let copy: { onmessage: (event: { readonly data: Float32Array }) => void } | undefined;
    vi.stubGlobal(
      'AudioWorkletNode',
      class {
        readonly port = { onmessage: (_event: { readonly data: Float32Array }) => undefined };
        constructor() {
          copy = this.port;
        }
      },
    );
    const track = Object.assign(new EventTarget(), {
      stop: vi.fn(),
      getSettings: () => ({ autoGainControl: true, noiseSuppression: false }),
    });
    const context = Object.assign(new EventTarget(), {
      state: 'running',
      sampleRate: 48_000,
      audioWorklet: { addModule: () => Promise.resolve() },
      createMediaStreamSource: () => ({ connect: () => undefined }),
      resume: vi.fn(() => Promise.resolve()),
      close: vi.fn(() => Promise.resolve()),
    });
    const stream = { getTracks: () => [track], getAudioTracks: () => [track] };
    const blocks: Float32Array[] = [];
    const news: string[] = [];
    const ear = await openMicrophone(
      (block) => blocks.push(block),
      (what) => news.push(what),
      {
        devices: { getUserMedia: () => Promise.resolve(stream as unknown as MediaStream) },
        permissions: null,
        newContext: () => context as unknown as AudioContext,
      },
    );
    return { ear, track, context, blocks, news, copy };
  }

  test('hands over what the worklet copied, and says what was left on', async () => {
    const { ear, blocks, copy } = await opened();
    expect(ear).toMatchObject({ ok: true, rate_hz: 48_000, leftOn: ['automatic gain'] });
    const block = Float32Array.of(0.1, 0.2);
    copy?.onmessage({ data: block });
    expect(blocks).toEqual([block]);
  });

  test('that is unplugged, or taken and given back by a call, says so', async () => {
    const { track, news } = await opened();
    track.dispatchEvent(new Event('mute'));
    track.dispatchEvent(new Event('unmute'));
    track.dispatchEvent(new Event('ended'));
    expect(news).toEqual(['interrupted', 'resumed', 'unplugged']);
  });

  test('that the system stops is asked to go on', async () => {
    const { context, news } = await opened();
    const before = context.resume.mock.calls.length;
    context.state = 'interrupted';
    context.dispatchEvent(new Event('statechange'));
    expect(context.resume.mock.calls.length).toBe(before + 1);
    context.state = 'running';
    context.dispatchEvent(new Event('statechange'));
    expect(news).toEqual(['interrupted', 'resumed']);
  });

  test('lets go of the device when it is closed', async () => {
    const { ear, track, context } = await opened();
    if (ear.ok) ear.close();
    expect(track.stop).toHaveBeenCalledOnce();
    expect(context.close).toHaveBeenCalledOnce();
  });
});
