/** How much one guest may ask; a minute, where no other time is named. */
export interface Limits {
  /** Requests of one device. Catching up on 100,000 notes takes about 200. */
  readonly perKey: number;
  /** Requests from one address, with or without a key: a whole camp may share one. */
  readonly perAddress: number;
  /** Tries to join from one address. */
  readonly joins: number;
  /** Keys from one address that the hub does not know; after that it only asks to wait. */
  readonly unknownKeys: number;
  /** Requests of one device at once. */
  readonly atOncePerKey: number;
  /** Requests at once from all devices together; more would only wait for the database. */
  readonly atOnce: number;
  /** Open lines for changes, of one device and of all together. */
  readonly linesPerKey: number;
  readonly lines: number;
}

/** Guesses (G), generous for honest devices; `bench/hub.ts` shows what a hub carries. */
export const usualLimits: Limits = {
  perKey: 600,
  perAddress: 6000,
  joins: 10,
  unknownKeys: 60,
  atOncePerKey: 8,
  atOnce: 300,
  linesPerKey: 4,
  lines: 5000,
};

/** Counts what goes on at once, by key and in all. */
export class AtOnce {
  readonly #mostOfOne: number;
  readonly #mostOfAll: number;
  readonly #counts = new Map<string, number>();
  #all = 0;

  constructor(mostOfOne: number, mostOfAll: number) {
    this.#mostOfOne = mostOfOne;
    this.#mostOfAll = mostOfAll;
  }

  /** Takes a place, to be given back with `leave`; says whose limit is reached when there is none. */
  enter(key: string): 'entered' | 'one' | 'all' {
    const count = this.#counts.get(key) ?? 0;
    if (count >= this.#mostOfOne) return 'one';
    if (this.#all >= this.#mostOfAll) return 'all';
    this.#counts.set(key, count + 1);
    this.#all += 1;
    return 'entered';
  }

  leave(key: string): void {
    const count = this.#counts.get(key) ?? 0;
    if (count <= 1) this.#counts.delete(key);
    else this.#counts.set(key, count - 1);
    this.#all -= 1;
  }
}
