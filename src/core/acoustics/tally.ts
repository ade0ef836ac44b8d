import { frameStep_s } from './analysis-rate.ts';
import { CountedTime } from './counted-time.ts';
import { missedByDeafness } from './dead-time.ts';
import type { LongFeatures } from './features.ts';
import type { Stretch } from './footsteps.ts';
import type { Verdict } from './judge-onset.ts';
import type { HeardEvent, Reading } from './reading.ts';
import type { SignalFault } from './signal-faults.ts';
import { type ByState, evenStates, stateLikelihood } from './state-likelihood.ts';
import type { Sustained } from './sustained.ts';
import { quantileOf, type Texture } from './texture.ts';
import { VoiceMask } from './voice-mask.ts';
import type { Warning } from './warnings.ts';
import { Sound } from '../domain/visit.ts';

/** An event counts once this long has passed without its turning out to be a step. */
const settle_s = 6;
/** The shortest scratch fills so much of its time. */
const leastLength_s = 0.03;
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
  swell: 0.1,
  unlike: 0.1,
};

/** What the signal itself says. */
export interface SignalState {
  readonly faults: readonly SignalFault[];
  readonly isAutomaticGain: boolean;
}

/** A sudden sound as far as the sum depends on it. */
export interface Judged extends HeardEvent {
  /** Its level, dB of full scale. */
  readonly total_db: number;
  readonly length_s: number;
  /** Probability that it is no stroke though taken for one. */
  readonly doubt: number;
}

type Scratch = HeardEvent & Pick<Judged, 'total_db'>;

/** Adds up what was heard, and leaves out the stretches that do not count. */
export class Tally {
  readonly #time = new CountedTime();
  #events: Scratch[] = [];
  readonly #mask = new VoiceMask();
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
    this.#time.growTo(this.#heard_s);
  }

  /** One long frame; null is digital silence. */
  long(features: LongFeatures | null): void {
    if (features === null) return;
    this.#longFrames++;
    if (features.centroid_hz < rumble_hz) this.#rumbling++;
  }

  /** Another moment, as in `VoiceMask`. */
  mask(level_db: number | null): void {
    this.#mask.moment(level_db);
  }

  /** Somebody walked by: that stretch does not count, whatever was heard in it. */
  excludeWalk(walk: Stretch): void {
    this.#walkTo_s = walk.to_s;
    this.#time.exclude(walk, 'walked');
  }

  /** One sudden sound and what it was taken for. */
  judged(verdict: Verdict, { at_s, over_db, total_db, length_s, doubt }: Judged): void {
    if (verdict === 'thump') this.#thumps++;
    this.#leak += leaks[verdict];
    if (verdict !== 'scratch') return;
    this.#leak += doubt;
    this.#events.push({ at_s, over_db, total_db });
    this.#time.scratchAt(at_s, Math.max(leastLength_s, length_s));
  }

  block(sustained: Sustained, texture: Texture, { from_s, to_s }: Stretch): void {
    this.#blocks++;
    if (sustained === 'nothing' && texture.fine_db > 2.2) this.#restless++;
    if (sustained === 'rush') this.#time.rush({ from_s, to_s });
    if (sustained !== 'rain') return;
    this.excludeDrops({ from_s: from_s - rainBefore_s, to_s: to_s + rainAfter_s });
  }

  /** Rain, drops or clicks: that stretch does not count either. */
  excludeDrops(drops: Stretch): void {
    this.#time.exclude(drops, 'rained');
  }

  finish(): void {
    this.#finished = true;
  }

  reading(signal: SignalState): Reading {
    const settled_s = this.#finished ? Infinity : this.#heard_s - settle_s;
    const counted = this.#time.upTo(settled_s);
    const events = this.#events.filter(
      ({ at_s }) => at_s <= settled_s && this.#time.doesCount(at_s),
    );
    const heard_s = this.#heard_s;
    const usable_s = Math.min(heard_s, counted.usable_s);
    const warnings = this.#warnings(signal, usable_s);
    const isMute = signal.faults.some((fault) => fault === 'silence' || fault === 'dead');
    const times = events.map(({ at_s }) => at_s);
    const found = events.reduce((sum, { total_db }) => sum + this.#mask.standsFor(total_db), 0);
    const count = found * missedByDeafness(times);
    const rate = usable_s > 0 ? count / (usable_s / 60) : null;
    const likelihood =
      isMute || usable_s === 0
        ? evenStates
        : stateLikelihood({
            events: Math.round(count),
            leak_per_min: (60 * this.#leak) / heard_s,
            usable_s,
            active_share: counted.active_share ?? 0,
            rush_share: counted.rush_share,
            poor: this.#poor(signal),
          });
    const known_s = Math.max(0, Math.min(heard_s, settled_s));
    const tells = !isMute && usable_s >= leastUsable_s && usable_s >= leastUsableShare * known_s;
    return {
      heard_s,
      usable_s,
      events: events.map(({ at_s, over_db }) => ({ at_s, over_db })),
      scratch_per_min: isMute ? null : rate,
      active_share: isMute ? null : counted.active_share,
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

  #poor({ faults, isAutomaticGain }: SignalState): number {
    const talk = this.#frames === 0 ? 0 : this.#voiced / this.#frames;
    const restless = this.#blocks === 0 ? 0 : this.#restless / this.#blocks;
    const lost = this.#time.share('walked') + this.#time.share('rained');
    const faulty = faults.length * 0.25 + (isAutomaticGain ? 0.25 : 0);
    return Math.min(1, 0.7 * talk + 0.6 * restless + 0.7 * lost + faulty);
  }

  #warnings({ faults, isAutomaticGain }: SignalState, usable_s: number): Warning[] {
    const warnings: Warning[] = [...faults];
    if (faults.includes('silence') || faults.includes('dead')) return warnings;
    const minutes = this.#heard_s / 60;
    if (isAutomaticGain) warnings.push('automatic gain');
    if (this.#time.share('walked') > 0) warnings.push('footsteps');
    if (this.#time.share('rained') > 0.1) warnings.push('rain');
    if (this.#voiced > 0.08 * this.#frames) warnings.push('talk');
    if (this.#thumps > Math.max(2, 2 * minutes)) warnings.push('bumps');
    if (this.#restless > 0.4 * this.#blocks) warnings.push('noisy');
    if (this.#rumbling > rumbleShare * this.#longFrames) warnings.push('muffled');
    if (usable_s < leastUsable_s) warnings.push('short');
    return warnings;
  }
}

function likeliest(likelihood: ByState): Reading['state'] {
  let best: Sound = 'quiet';
  for (const state of Sound.options) if (likelihood[state] > likelihood[best]) best = state;
  const least = best === 'quiet' ? leastSureQuiet : leastSure;
  return likelihood[best] >= least ? best : 'can not tell';
}
