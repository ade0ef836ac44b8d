import type { Clock } from '../../../src/app/state/clock.svelte.ts';

/** A clock that a test moves by hand. */
export class HandClock implements Clock {
  #now_ms = $state.raw(0);
  constructor(start_ms: number) {
    this.#now_ms = start_ms;
  }
  get now_ms(): number {
    return this.#now_ms;
  }
  read_ms(): number {
    return this.#now_ms;
  }
  pass(span_ms: number): void {
    this.#now_ms += span_ms;
  }
}
