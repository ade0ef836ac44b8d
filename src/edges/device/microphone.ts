import { type Leave, leaveFor } from './leave.ts';

type Problem = 'refused' | 'no microphone' | 'in use elsewhere' | 'not possible here' | 'failed';
type LeftOn = 'echo cancellation' | 'noise suppression' | 'automatic gain';
type News = 'unplugged' | 'interrupted' | 'resumed';

type Opened =
  | {
      readonly ok: true;
      readonly rate_hz: number;
      readonly leftOn: readonly LeftOn[];
      close(): void;
    }
  | { readonly ok: false; readonly problem: Problem };

/** What is needed of the browser; tests pass their own. */
export interface SoundDevice {
  readonly devices: Pick<MediaDevices, 'getUserMedia'> | null;
  readonly permissions: Pick<Permissions, 'query'> | null;
  readonly newContext: (() => AudioContext) | null;
}

/** Relative to the page; a file of its own, because a worklet runs nothing that is bundled with it. */
const worklet = 'microphone-worklet.js';

/** Ideal, not exact: where a browser cannot leave one off it still listens, and the reading says so. */
const plainSound: MediaTrackConstraints = {
  echoCancellation: false,
  noiseSuppression: false,
  autoGainControl: false,
};

/** Whether the microphone may be used without a question. Never fails, and asks nothing. */
export async function microphoneLeave(device: SoundDevice = thisDevice()): Promise<Leave> {
  return device.devices === null ? 'refused' : leaveFor('microphone', device.permissions);
}

/**
 * Opens the microphone with everything off that changes the sound, and hands over its samples. The
 * browser may ask the person first. Nothing is recorded.
 */
export async function openMicrophone(
  samples: (block: Float32Array) => void,
  news: (what: News) => void,
  device: SoundDevice = thisDevice(),
): Promise<Opened> {
  if (device.devices === null || device.newContext === null) {
    return { ok: false, problem: 'not possible here' };
  }
  let stream: MediaStream;
  try {
    stream = await device.devices.getUserMedia({ audio: plainSound });
  } catch (error) {
    return { ok: false, problem: problemOf(error) };
  }
  const context = device.newContext();
  const stop = (): void => {
    for (const track of stream.getTracks()) track.stop();
    void context.close().catch(() => undefined);
  };
  try {
    await context.audioWorklet.addModule(worklet);
    const copy = new AudioWorkletNode(context, 'copy-frames', { numberOfOutputs: 0 });
    copy.port.onmessage = ({ data }: MessageEvent<Float32Array>) => {
      samples(data);
    };
    context.createMediaStreamSource(stream).connect(copy);
    await context.resume();
  } catch {
    stop();
    return { ok: false, problem: 'failed' };
  }
  const track = stream.getAudioTracks()[0];
  track?.addEventListener('ended', () => {
    news('unplugged');
  });
  track?.addEventListener('mute', () => {
    news('interrupted');
  });
  track?.addEventListener('unmute', () => {
    news('resumed');
  });
  context.addEventListener('statechange', () => {
    if (context.state === 'closed') return;
    if (context.state === 'running') {
      news('resumed');
      return;
    }
    news('interrupted');
    void context.resume().catch(() => undefined);
  });
  const awake = keepAwake();
  return {
    ok: true,
    rate_hz: context.sampleRate,
    leftOn: leftOnOf(track?.getSettings() ?? {}),
    close() {
      awake();
      stop();
    },
  };
}

/** The sound of a recording, mono, in any form the browser knows; null when it knows it not. */
export async function decodeRecording(
  bytes: ArrayBuffer,
): Promise<{ readonly samples: Float32Array; readonly rate_hz: number } | null> {
  const rate_hz = 44_100;
  try {
    const context = new OfflineAudioContext(1, 1, rate_hz);
    const heard = await context.decodeAudioData(bytes);
    const samples = new Float32Array(heard.length);
    for (let channel = 0; channel < heard.numberOfChannels; channel++) {
      heard.getChannelData(channel).forEach((sample, n) => {
        samples[n] = (samples[n] ?? 0) + sample / heard.numberOfChannels;
      });
    }
    return { samples, rate_hz: heard.sampleRate };
  } catch {
    return null;
  }
}

function problemOf(error: unknown): Problem {
  const name = error instanceof Error ? error.name : '';
  switch (name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return 'refused';
    case 'NotFoundError':
    case 'OverconstrainedError':
      return 'no microphone';
    case 'NotReadableError':
    case 'AbortError':
      return 'in use elsewhere';
    default:
      return 'failed';
  }
}

function leftOnOf(settings: MediaTrackSettings): readonly LeftOn[] {
  const left: LeftOn[] = [];
  if (settings.echoCancellation === true) left.push('echo cancellation');
  if (settings.noiseSuppression === true) left.push('noise suppression');
  if (settings.autoGainControl === true) left.push('automatic gain');
  return left;
}

/** Asks that the screen stay on; the system lets go of it when the page is hidden, so it is asked anew. */
function keepAwake(): () => void {
  let lock: WakeLockSentinel | null = null;
  let isOver = false;
  const ask = (): void => {
    if (isOver || document.visibilityState !== 'visible' || !('wakeLock' in navigator)) return;
    navigator.wakeLock.request('screen').then(
      (given) => {
        lock = given;
        if (isOver) void given.release();
      },
      () => undefined,
    );
  };
  document.addEventListener('visibilitychange', ask);
  ask();
  return () => {
    isOver = true;
    document.removeEventListener('visibilitychange', ask);
    void lock?.release();
  };
}

function thisDevice(): SoundDevice {
  const device = typeof navigator === 'undefined' ? null : navigator;
  const canHear = device !== null && 'mediaDevices' in device;
  return {
    devices: canHear ? device.mediaDevices : null,
    permissions: device !== null && 'permissions' in device ? device.permissions : null,
    newContext:
      typeof AudioContext === 'undefined'
        ? null
        : () => new AudioContext({ latencyHint: 'playback' }),
  };
}
