/** Draws from one stream of chance. Every draw moves the stream on; nothing else does. */
export interface Random {
  /** Between 0 and 1, never either end, in steps of 2^-32. */
  uniform(): number;
  /** Evenly between `low` and `high`. */
  between(low: number, high: number): number;
  /** A whole number 0 .. `count` - 1, all alike. */
  below(count: number): number;
  /** True with probability `p`. */
  chance(p: number): boolean;
  /** Gaussian; Marsaglia's polar method (from memory). */
  normal(mean: number, sd: number): number;
  /** Gamma with this mean and shape (SD = mean / sqrt(shape)); Marsaglia and Tsang 2000 (from memory). */
  gamma(mean: number, shape: number): number;
  /** Beta with this mean and concentration (a + b); from two gammas. */
  beta(mean: number, concentration: number): number;
  /** Poisson; products of uniforms (Knuth), a large mean being split into halves. */
  poisson(mean: number): number;
  /** Successes among `trials` independent trials. */
  binomial(trials: number, p: number): number;
  /** One of the items, all alike. Throws on an empty list. */
  choice<Item>(items: readonly Item[]): Item;
  /** One of the items, in proportion to its weight. Throws on an empty list. */
  weighted<Item>(items: readonly (readonly [Item, number])[]): Item;
}

/**
 * A stream of chance that depends on the seed and the labels alone: the same on every machine, and
 * two streams with different labels do not disturb each other.
 *
 * Algorithm: sfc32 ("small fast counting", 128 bits of state, Chris Doty-Humphrey, PractRand; from
 * memory), its state filled from a multiply-and-shift hash of seed and labels, then run in.
 * Not for secrets. Throws when the seed is not a whole number below 2^53.
 */
export function randomStream(seed: number, ...labels: (string | number)[]): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`A seed is a whole number, not ${seed}.`);
  return new Draws(`${seed}/${labels.join('/')}`);
}

class Draws implements Random {
  #a: number;
  #b: number;
  #c: number;
  #counter = 1;
  #spare: number | null = null;

  constructor(key: string) {
    let hash = 0x2545f491;
    const word = (salt: number): number => {
      hash = Math.imul(hash ^ salt, 0x9e3779b1); // 2^32 over the golden ratio, odd
      hash ^= hash >>> 15;
      hash = Math.imul(hash, 0x85ebca6b); // a multiplier of MurmurHash3's finish (from memory)
      return (hash ^= hash >>> 13);
    };
    for (let at = 0; at < key.length; at++) word(key.charCodeAt(at));
    [this.#a, this.#b, this.#c] = [word(1), word(2), word(3)];
    for (let run = 0; run < 12; run++) this.uniform();
  }

  uniform(): number {
    const out = (((this.#a + this.#b) | 0) + this.#counter) | 0;
    this.#counter = (this.#counter + 1) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = (((this.#c << 21) | (this.#c >>> 11)) + out) | 0;
    return ((out >>> 0) + 0.5) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.uniform();
  }

  below(count: number): number {
    return Math.floor(this.uniform() * count);
  }

  chance(p: number): boolean {
    return this.uniform() < p;
  }

  normal(mean: number, sd: number): number {
    return mean + sd * this.#standardNormal();
  }

  gamma(mean: number, shape: number): number {
    return (this.#standardGamma(shape) * mean) / shape;
  }

  beta(mean: number, concentration: number): number {
    const a = this.#standardGamma(mean * concentration);
    return a / (a + this.#standardGamma((1 - mean) * concentration));
  }

  poisson(mean: number): number {
    if (mean > 30) return this.poisson(mean / 2) + this.poisson(mean / 2);
    const floor = Math.exp(-mean);
    let count = 0;
    for (let product = this.uniform(); product > floor; product *= this.uniform()) count++;
    return count;
  }

  binomial(trials: number, p: number): number {
    let count = 0;
    for (let trial = 0; trial < trials; trial++) if (this.uniform() < p) count++;
    return count;
  }

  choice<Item>(items: readonly Item[]): Item {
    const at = this.below(items.length);
    for (const item of items.slice(at, at + 1)) return item;
    throw new RangeError('Nothing to choose from.');
  }

  weighted<Item>(items: readonly (readonly [Item, number])[]): Item {
    let left = this.uniform() * items.reduce((sum, [, weight]) => sum + weight, 0);
    for (const [item, weight] of items) if ((left -= weight) <= 0) return item;
    const last = items.at(-1);
    if (last === undefined) throw new RangeError('Nothing to choose from.');
    return last[0];
  }

  #standardNormal(): number {
    if (this.#spare !== null) {
      const kept = this.#spare;
      this.#spare = null;
      return kept;
    }
    for (;;) {
      const u = 2 * this.uniform() - 1;
      const v = 2 * this.uniform() - 1;
      const s = u * u + v * v;
      if (s >= 1 || s === 0) continue;
      const stretch = Math.sqrt((-2 * Math.log(s)) / s);
      this.#spare = v * stretch;
      return u * stretch;
    }
  }

  /** Gamma of unit scale; a shape below 1 is lifted by one and brought back with a power. */
  #standardGamma(shape: number): number {
    if (shape < 1) return this.#standardGamma(shape + 1) * this.uniform() ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = this.#standardNormal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(this.uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v))
        return d * v;
    }
  }
}
