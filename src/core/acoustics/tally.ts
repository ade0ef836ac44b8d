import { frameStep_s } from './analysis-rate.ts';
import { missedByDeafness } from './dead-time.ts';
import type { LongFeatures } from './features.ts';
import type { Stretch } from './footsteps.ts';
import type { Verdict } from './judge-onset.ts';
import type { HeardEvent, Reading } from './reading.ts';
import type { SignalFault } from './signal-faults.ts';
import { type ByState, evenStates, stateLikelihood } from './state-likelihood.ts';
import type { Sustained } from './sustained.ts';
import { quantileOf, type Texture } from './texture.ts';
import type { Warning } from './warnings.ts';
import { Sound } from '../domain/visit.ts';

/** Time is kept in cells this long. */
const cell_s = 0.25;
/** An event counts once this long has passed without its turning out to be a step. */
const settle_s = 6;
/** Rain is known by the seconds before; it is taken to go on a little. */
const rainBefore_s = 8;
const rainAfter_s = 3;
/** Less time than this, or a smaller share that counts, tells nothing. */
const leastUsable_s = 5;
const leastUsableShare = 0.3;
/** Below this probability of the likeliest state it is not named; to claim scratching takes more. */
const leastSureQuiet = 0.5;
const leastSure = 0.55;

/** A mean pitch below this for most of the time is rumble and nothing else (G). */
const rumble_hz = 350;
const rumbleShare = 0.7;

/**
 * Of each kind of rejected sound, how many may pass for scratches, and how many may have been scratches,
 * as a share (G; from recordings of voices, insects, drops and steps).
 */
const leaks: Readonly<Record<Verdict, number>> = {
  scratch: 0,
  voice: 0.006,
  thump: 0.05,
  tone: 0.08,
  narrow: 0.1,
  faint: 0.1,
  click: 0.1,
};

const counts = 0;
const walked = 1;
const rained = 2;

/** What the signal itself says. */
export interface SignalState {
  readonly faults: readonly SignalFault[];
  readonly isAutomaticGain: boolean;
}

/** Adds up what was heard, and leaves out the stretches that do not count. */
export class Tally {
  #cells: number[] = [];
  #active: number[] = [];
  readonly #rush = new Set<number>();
  #events: HeardEvent[] = [];
  #thumps = 0;
  #leak = 0;
  #frames = 0;
  #voiced = 0;
  #longFrames = 0;
  #rumbling = 0;
  #restless = 0;
  #blocks = 0;
  #finished = false;
  #walkTo_s = -1;

  get #heard_s(): number {
    return this.#frames * frameStep_s;
  }

  frame(isVoice: boolean): void {
    this.#frames++;
    if (isVoice) this.#voiced++;
    const cells = Math.ceil(this.#heard_s / cell_s);
    while (this.#cells.length < cells) {
      this.#cells.push(counts);
      this.#active.push(0);
    }
  }

  /** One long frame; null is digital silence. */
  long(features: LongFeatures | null): void {
    if (features === null) return;
    this.#longFrames++;
    if (features.centroid_hz < rumble_hz) this.#rumbling++;
  }

  /** Somebody walked by: that stretch does not count, whatever was heard in it. */
  excludeWalk({ from_s, to_s }: Stretch): void {
    this.#walkTo_s = to_s;
    for (let cell = cellOf(from_s); cell <= cellOf(to_s); cell++) {
      if (cell >= 0) this.#mark(cell, walked);
    }
  }

  judged(verdict: Verdict, at_s: number, over_db: number, length_s: number): void {
    if (verdict === 'thump') this.#thumps++;
    this.#leak += leaks[verdict];
    if (verdict !== 'scratch') return;
    this.#events.push({ at_s, over_db });
    for (let left_s = Math.max(0.03, length_s), from_s = at_s; left_s > 0;) {
      const cell = cellOf(from_s);
      const part_s = Math.min(left_s, (cell + 1) * cell_s - from_s);
      this.#active[cell] = Math.min(1, (this.#active[cell] ?? 0) + part_s / cell_s);
      from_s += Math.max(part_s, 1e-6);
      left_s -= Math.max(part_s, 1e-6);
    }
  }

  block(sustained: Sustained, texture: Texture, { from_s, to_s }: Stretch): void {
    this.#blocks++;
    if (sustained === 'nothing' && texture.fine_db > 2.2) this.#restless++;
    for (let cell = cellOf(from_s); cell < cellOf(to_s); cell++) {
      if (sustained === 'rush') this.#rush.add(cell);
    }
    if (sustained !== 'rain') return;
    this.excludeDrops({ from_s: from_s - rainBefore_s, to_s: to_s + rainAfter_s });
  }

  /** Rain, drops or clicks: that stretch does not count either. */
  excludeDrops({ from_s, to_s }: Stretch): void {
    for (let cell = cellOf(from_s); cell <= cellOf(to_s); cell++) {
      if (cell >= 0 && this.#cells[cell] !== walked) this.#mark(cell, rained);
    }
  }

  finish(): void {
    this.#finished = true;
  }

  reading(signal: SignalState): Reading {
    const settled_s = this.#finished ? Infinity : this.#heard_s - settle_s;
    const last = Math.min(this.#cells.length, this.#finished ? Infinity : cellOf(settled_s) + 1);
    let [usable, active, rush] = [0, 0, 0];
    for (let cell = 0; cell < last; cell++) {
      if ((this.#cells[cell] ?? counts) !== counts) continue;
      usable++;
      const isRush = this.#rush.has(cell);
      if (isRush) rush++;
      active += isRush ? 1 : (this.#active[cell] ?? 0);
    }
    const events = this.#events.filter(
      ({ at_s }) => at_s <= settled_s && (this.#cells[cellOf(at_s)] ?? counts) === counts,
    );
    const heard_s = this.#heard_s;
    const usable_s = Math.min(heard_s, usable * cell_s);
    const warnings = this.#warnings(signal, usable_s);
    const isMute = signal.faults.some((fault) => fault === 'silence' || fault === 'dead');
    const times = events.map(({ at_s }) => at_s);
    const count = events.length * missedByDeafness(times);
    const rate = usable_s > 0 ? count / (usable_s / 60) : null;
    const active_share = usable > 0 ? active / usable : null;
    const likelihood =
      isMute || usable_s === 0
        ? evenStates
        : stateLikelihood({
            events: Math.round(count),
            leak_per_min: (60 * this.#leak) / heard_s,
            usable_s,
            active_share: active_share ?? 0,
            rush_share: rush / usable,
            poor: this.#poor(signal),
          });
    const known_s = Math.max(0, Math.min(heard_s, settled_s));
    const tells = !isMute && usable_s >= leastUsable_s && usable_s >= leastUsableShare * known_s;
    return {
      heard_s,
      usable_s,
      events,
      scratch_per_min: isMute ? null : rate,
      active_share: isMute ? null : active_share,
      level_db:
        events.length === 0
          ? 0
          : quantileOf(
              events.map(({ over_db }) => over_db),
              0.5,
            ),
      state: tells ? likeliest(likelihood) : 'can not tell',
      likelihood: tells ? likelihood : evenStates,
      warnings,
      isWalking: !this.#finished && this.#walkTo_s > heard_s - 1.5,
    };
  }

  #mark(cell: number, why: number): void {
    while (this.#cells.length <= cell) {
      this.#cells.push(counts);
      this.#active.push(0);
    }
    this.#cells[cell] = why;
  }

  #share(why: number): number {
    const of = this.#cells.filter((cell) => cell === why).length;
    return this.#cells.length === 0 ? 0 : of / this.#cells.length;
  }

  #poor({ faults, isAutomaticGain }: SignalState): number {
    const talk = this.#frames === 0 ? 0 : this.#voiced / this.#frames;
    const restless = this.#blocks === 0 ? 0 : this.#restless / this.#blocks;
    const lost = this.#share(walked) + this.#share(rained);
    const faulty = faults.length * 0.25 + (isAutomaticGain ? 0.25 : 0);
    return Math.min(1, 0.7 * talk + 0.6 * restless + 0.7 * lost + faulty);
  }

  #warnings({ faults, isAutomaticGain }: SignalState, usable_s: number): Warning[] {
    const warnings: Warning[] = [...faults];
    if (faults.includes('silence') || faults.includes('dead')) return warnings;
    const minutes = this.#heard_s / 60;
    if (isAutomaticGain) warnings.push('automatic gain');
    if (this.#share(walked) > 0) warnings.push('footsteps');
    if (this.#share(rained) > 0.1) warnings.push('rain');
    if (this.#voiced > 0.08 * this.#frames) warnings.push('talk');
    if (this.#thumps > Math.max(2, 2 * minutes)) warnings.push('bumps');
    if (this.#restless > 0.4 * this.#blocks) warnings.push('noisy');
    if (this.#rumbling > rumbleShare * this.#longFrames) warnings.push('muffled');
    if (usable_s < leastUsable_s) warnings.push('short');
    return warnings;
  }
}

const cellOf = (at_s: number): number => Math.floor(at_s / cell_s);

function likeliest(likelihood: ByState): Reading['state'] {
  let best: Sound = 'quiet';
  for (const state of Sound.options) if (likelihood[state] > likelihood[best]) best = state;
  const least = best === 'quiet' ? leastSureQuiet : leastSure;
  return likelihood[best] >= least ? best : 'can not tell';
}
