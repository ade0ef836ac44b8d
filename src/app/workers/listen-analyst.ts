import { Detector } from '../../core/acoustics/detector.ts';
import type { FromAnalyst, ToAnalyst } from './listen-messages.ts';

/** Seconds of sound between two answers. */
const answerEvery_s = 0.25;
/** Frames of a long block that are analysed at a time. */
const piece = 32_768;

/** Analyses one listening after another; the same beside the page and in it. */
export class ListenAnalyst {
  readonly #answer: (found: FromAnalyst) => void;
  #detector: Detector | null = null;
  #listening = 0;
  #rate_hz = 1;
  #since = 0;

  constructor(answer: (found: FromAnalyst) => void) {
    this.#answer = answer;
  }

  take(message: ToAnalyst): void {
    switch (message.kind) {
      case 'start':
        this.#detector = new Detector(message.rate_hz);
        this.#listening = message.listening;
        this.#rate_hz = message.rate_hz;
        this.#since = 0;
        return;
      case 'samples':
        for (let at = 0; at < message.block.length; at += piece) {
          this.#hear(message.block.subarray(at, at + piece));
        }
        return;
      case 'finish': {
        const detector = this.#detector;
        this.#detector = null;
        if (detector !== null) this.#say(detector, true);
        return;
      }
    }
  }

  #hear(block: Float32Array): void {
    const detector = this.#detector;
    if (detector === null) return;
    detector.push(block);
    this.#since += block.length;
    if (this.#since < answerEvery_s * this.#rate_hz) return;
    this.#since = 0;
    this.#say(detector, false);
  }

  #say(detector: Detector, isFinal: boolean): void {
    const reading = isFinal ? detector.finish() : detector.reading();
    const trace = detector.takeTrace();
    this.#answer({ listening: this.#listening, reading, trace, isFinal });
  }
}
