import { bandCount, firstScratchBand, firstUpperBand, scratchBands } from './bands.ts';

/** Frames looked back on for the level from which a sound rises: 24-64 ms ago, clear of the overlap. */
const nearest = 3;
const farthest = 8;
/** A band counts no more than this (power ratio, 18 dB): one loud band is not a broad sound. */
const highestRatio = 63;
/** Power ratio (4 dB) at which a band is said to have risen. */
const risenRatio = 2.5;
/** Frames kept. */
const kept = 16;

/** How far the spectrum of one frame stands out. */
export interface Rise {
  /** Mean rise of the scratching bands over what was just before, or the floor if that is higher; dB. */
  readonly rise_db: number;
  /** How many of them rose by 4 dB or more. */
  readonly broad: number;
  /** How many of those lie below 2.6 kHz: all that a stethoscope passes, little of insects and hissed consonants. */
  readonly middle: number;
  /** Mean level of the scratching bands over their floors, dB. */
  readonly level_db: number;
  /** The same of the bands below them. */
  readonly low_db: number;
}

/** Compares each frame with the floor and with the frames just before. Keeps only the last few. */
export class RiseMeter {
  readonly #past = Array.from({ length: kept }, () => new Float64Array(bandCount));
  readonly #reference = new Float64Array(bandCount);
  #count = 0;

  /** `powers` by band; `floor_db` as `NoiseFloor` gives it. */
  measure(powers: Float64Array, floor_db: Float64Array): Rise {
    this.#look(powers);
    let [rise, level, low, broad, middle] = [0, 0, 0, 0, 0];
    for (let band = 0; band < bandCount; band++) {
      const floor = 10 ** (floor_db[band]! / 10);
      const over = Math.min(highestRatio, powers[band]! / floor);
      if (band < firstScratchBand) {
        low += over;
        continue;
      }
      const risen = Math.min(highestRatio, powers[band]! / Math.max(floor, this.#reference[band]!));
      level += over;
      rise += risen;
      if (risen < risenRatio) continue;
      broad++;
      if (band < firstUpperBand) middle++;
    }
    this.#keep(powers);
    return {
      rise_db: 10 * Math.log10(rise / scratchBands),
      broad,
      middle,
      level_db: 10 * Math.log10(level / scratchBands),
      low_db: 10 * Math.log10(low / firstScratchBand),
    };
  }

  #look(powers: Float64Array): void {
    const reference = this.#reference.fill(0);
    const reach = Math.min(farthest, this.#count);
    let used = 0;
    for (let back = nearest; back <= reach; back++) {
      const frame = this.#past[(this.#count - back + kept * 2) % kept]!;
      for (let band = 0; band < bandCount; band++)
        reference[band] = reference[band]! + frame[band]!;
      used++;
    }
    if (used === 0) reference.set(powers);
    else for (let band = 0; band < bandCount; band++) reference[band] = reference[band]! / used;
  }

  #keep(powers: Float64Array): void {
    this.#past[this.#count % kept]!.set(powers);
    this.#count++;
  }
}
