import { createSubscriber } from 'svelte/reactivity';

/** What a clock needs from the device. */
export interface TimeSource {
  now_ms(): number;
  /** Calls back about once a minute, and at once when the page is seen again; gives the way to stop. */
  everyMinute(tick: () => void): () => void;
}

/** The hour as the screens read it. */
export interface Clock {
  /** Epoch milliseconds; screens that read it are drawn anew every minute while they are seen. */
  readonly now_ms: number;
  /** The exact moment, without being told of the next. */
  read_ms(): number;
}

/** The clock of one's own season: the device's. */
export class RunningClock implements Clock {
  readonly #time: TimeSource;
  readonly #follow: () => void;

  constructor(time: TimeSource) {
    this.#time = time;
    this.#follow = createSubscriber((update) => time.everyMinute(update));
  }

  get now_ms(): number {
    this.#follow();
    return this.#time.now_ms();
  }

  read_ms(): number {
    return this.#time.now_ms();
  }
}

/** The clock of the invented season: set to an evening, it runs on from there until it is set again. */
export class SteppedClock implements Clock {
  readonly #time: TimeSource;
  readonly #follow: () => void;
  #ahead_ms = $state.raw(0);

  constructor(time: TimeSource, start_ms: number) {
    this.#time = time;
    this.#follow = createSubscriber((update) => time.everyMinute(update));
    this.set(start_ms);
  }

  set(at_ms: number): void {
    this.#ahead_ms = at_ms - this.#time.now_ms();
  }

  get now_ms(): number {
    this.#follow();
    return this.read_ms();
  }

  read_ms(): number {
    return this.#time.now_ms() + this.#ahead_ms;
  }
}
