import { Detector } from '../../src/core/acoustics/detector.ts';
import type { Reading } from '../../src/core/acoustics/reading.ts';

/** What the detector makes of a whole sound. */
export function heard(samples: Float64Array, rate_hz: number): Reading {
  const detector = new Detector(rate_hz);
  for (let at = 0; at < samples.length; at += 4096) {
    detector.push(Float32Array.from(samples.subarray(at, at + 4096)));
  }
  return detector.finish();
}

/** Precision and recall of events, 50 ms either way, and how far off the said rate is. */
export class Score {
  #hits = 0;
  #found = 0;
  #truth = 0;
  #said = 0;
  #seconds = 0;
  #usable = 0;

  add(reading: Reading, onsets_s: readonly number[]): void {
    const free = reading.events.map(({ at_s }) => at_s);
    this.#found += free.length;
    this.#truth += onsets_s.length;
    this.#said += ((reading.scratch_per_min ?? 0) * reading.heard_s) / 60;
    this.#seconds += reading.heard_s;
    this.#usable += reading.usable_s;
    for (const onset of onsets_s) {
      const at = free.findIndex((event) => Math.abs(event - onset) <= 0.05);
      if (at < 0) continue;
      free.splice(at, 1);
      this.#hits++;
    }
  }

  get line(): string {
    const precision = this.#hits / Math.max(1, this.#found);
    const recall = this.#hits / Math.max(1, this.#truth);
    const f1 = (2 * precision * recall) / Math.max(1e-9, precision + recall);
    const error = `${((this.#said / this.#truth - 1) * 100).toFixed(0)} %`;
    const counted = `${((100 * this.#usable) / this.#seconds).toFixed(0)} %`;
    const numbers = [precision, recall, f1].map((value) => value.toFixed(2).padStart(9));
    return `${numbers.join('')}  ${error.padStart(10)}  ${counted.padStart(7)}`;
  }
}

export const scoreHead = 'precision   recall       F1  rate error  counted';
