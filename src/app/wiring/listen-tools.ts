import { BrowserClips } from '../../edges/store/clip-shelf.ts';
import { decodeRecording, microphoneLeave, openMicrophone } from '../../edges/device/microphone.ts';
import { mostClipBytes } from '../state/clips.ts';
import type { Analyst, ListenTools } from '../state/listen-state.svelte.ts';
import { ListenAnalyst } from '../workers/listen-analyst.ts';
import type { FromAnalyst } from '../workers/listen-messages.ts';
import workerAddress from '../workers/listen-worker.ts?worker&url';
import { ownWorker } from './own-script.ts';

/** Listening by the device's microphone, analysed in a worker. */
export const listenTools: ListenTools = {
  ear: {
    leave: () => microphoneLeave(),
    open: (samples, news) => openMicrophone(samples, news),
    decode: decodeRecording,
  },
  newAnalyst: () => analystInWorker() ?? analystHere(),
  clips: new BrowserClips(mostClipBytes),
  onHidden(told) {
    const changed = (): void => {
      told(document.visibilityState === 'hidden');
    };
    document.addEventListener('visibilitychange', changed);
    return () => {
      document.removeEventListener('visibilitychange', changed);
    };
  },
  steady_ms: () => performance.now(),
};

function analystInWorker(): Analyst | null {
  let worker: Worker;
  try {
    worker = ownWorker(workerAddress);
  } catch {
    return null;
  }
  return {
    send(message) {
      worker.postMessage(message, message.kind === 'samples' ? [message.block.buffer] : []);
    },
    listen(found) {
      worker.addEventListener('message', ({ data }: MessageEvent<FromAnalyst>) => {
        found(data);
      });
    },
    close() {
      worker.terminate();
    },
  };
}

function analystHere(): Analyst {
  let found: (message: FromAnalyst) => void = () => undefined;
  const analyst = new ListenAnalyst((message) => {
    found(message);
  });
  return {
    send(message) {
      analyst.take(message);
    },
    listen(told) {
      found = told;
    },
    close: () => undefined,
  };
}
