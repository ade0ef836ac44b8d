import { describe, expect, test } from 'vitest';
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
