import { Detector } from './detector.ts';
import type { Reading } from './reading.ts';
import type { Wav } from './wav.ts';

/** Frames handed over at a time. */
const piece = 65_536;

/** What a whole recording holds. */
export function listenToWav(wav: Wav): Reading {
  const detector = new Detector(wav.rate_hz);
  for (let at = 0; at < wav.length; at += piece) detector.push(wav.read(at, at + piece));
  return detector.finish();
}
