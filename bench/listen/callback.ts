// How much of an audio callback's time the worklet takes that copies the frames, in Chromium.
import { join } from 'node:path';
import { chromium } from 'playwright-core';
import { findChromium } from '../../scripts/chromium.mjs';
import { serveFolder } from '../../scripts/serve.mjs';

const seconds = 600;

/**
 * Renders ten minutes of noise with and without the worklet, as fast as the browser can, and prints
 * the difference over the time that the sound would last.
 */
export async function callbackShare(): Promise<void> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('Chromium is needed to time its audio callback.');
  const served = await serveFolder(join(import.meta.dirname, '../../public'));
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage();
    // Shown as text, it is a page of the server that it can be loaded from.
    await page.goto(`${served.address}microphone-worklet.js`);
    const plain: number[] = [];
    const copied: number[] = [];
    for (let round = 0; round < 3; round++) {
      plain.push(await page.evaluate(render, { copies: false, seconds }));
      copied.push(await page.evaluate(render, { copies: true, seconds }));
    }
    const more_ms = Math.min(...copied) - Math.min(...plain);
    const callbacks = (seconds * 48_000) / 128;
    const each_us = (more_ms * 1000) / callbacks;
    const share = more_ms / (seconds * 1000);
    console.log(
      `\nWorklet at 48 kHz: ${each_us.toFixed(1)} us of the 2667 us of a callback, ${(100 * share).toFixed(2)} %`,
    );
  } finally {
    await browser.close();
    await served.close();
  }
}

/** Runs in the page: milliseconds to render the noise. Must hold no function of its own with a name. */
async function render(wish: {
  readonly copies: boolean;
  readonly seconds: number;
}): Promise<number> {
  const rate_hz = 48_000;
  const noise = new AudioBuffer({ length: rate_hz, sampleRate: rate_hz });
  const samples = noise.getChannelData(0);
  for (let n = 0; n < samples.length; n++) samples[n] = Math.sin(n * n) * 0.1;
  const context = new OfflineAudioContext(1, wish.seconds * rate_hz, rate_hz);
  const source = new AudioBufferSourceNode(context, { buffer: noise, loop: true });
  source.connect(context.destination);
  if (wish.copies) {
    await context.audioWorklet.addModule('/microphone-worklet.js');
    const copy = new AudioWorkletNode(context, 'copy-frames', { numberOfOutputs: 0 });
    source.connect(copy);
  }
  source.start();
  const began_ms = performance.now();
  await context.startRendering();
  return performance.now() - began_ms;
}
