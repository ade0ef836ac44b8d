import type { Forecaster } from '../state/forecaster.ts';
import type { FinishedEvents } from '../workers/finished-events.ts';
import type { Reply } from '../workers/forecast-messages.ts';
import workerAddress from '../workers/forecast-worker.ts?worker&url';
import { type ForecastPort, ForecasterApart } from './forecaster-apart.ts';
import { forecasterHere } from './forecaster-here.ts';
import { ownWorker } from './own-script.ts';

/**
 * Works out the odds in a worker, so that a tap never waits for them; in the page where the browser
 * has no workers of this kind, or the worker fails to start.
 */
export function forecasterWorker(finished: () => Promise<readonly FinishedEvents[]>): Forecaster {
  return new ForecasterApart(portToWorker() ?? forecasterHere(), forecasterHere, finished);
}

function portToWorker(): ForecastPort | null {
  let worker: Worker;
  try {
    worker = ownWorker(workerAddress);
  } catch {
    return null;
  }
  return {
    send(asked) {
      // Given away, not copied: that would take longer than reading them.
      const given = asked.season.texts ?? [];
      worker.postMessage(
        asked,
        given.map(({ buffer }) => buffer),
      );
    },
    listen(replied, broken) {
      worker.addEventListener('message', ({ data }: MessageEvent<Reply>) => {
        replied(data);
      });
      worker.addEventListener('error', broken);
      worker.addEventListener('messageerror', broken);
    },
    close() {
      worker.terminate();
    },
  };
}
