import { frameHop, frameStep_s, framesPerSecond } from './analysis-rate.ts';
import { bandCount, bandPowers, energyFrom } from './bands.ts';
import { decibels } from './decibels.ts';
import { GateWatch } from './gate-watch.ts';
import { HeardFrames } from './heard-frames.ts';
import { Lately } from './lately.ts';
import { LongFrames } from './long-frames.ts';
import { NoiseFloor } from './noise-floor.ts';
import { traitsAfter } from './onset-traits.ts';
import { OnsetFinder } from './onsets.ts';
import type { Voicing } from './pitch.ts';
import type { Reading } from './reading.ts';
import { Resampler } from './resample.ts';
import { RiseMeter } from './rise.ts';
import { ShortFrames } from './short-frames.ts';
import { SignalWatch } from './signal-faults.ts';
import { SuddenSounds } from './sudden-sounds.ts';
import { sustainedSound } from './sustained.ts';
import { Tally } from './tally.ts';
import { type Texture, TextureMeter, block_s } from './texture.ts';
import { Trace, type TracePoint } from './trace.ts';
import { voiceNow } from './voice-near.ts';

/** Frames from which the floor is first estimated: one second. */
const firstFrames = framesPerSecond;
/** How far the rise of an onset must be raised where the sound is restless, dB a dB of fine spread (G). */
const fineWeight = 3;
const fineFrom_db = 1.5;
const mostRaised_db = 5;
/** Whether a voice hides strokes is asked this often, frames: four times a second. */
const maskEvery = 31;

interface FirstFrame {
  readonly spectrum: Float64Array;
  readonly powers: Float64Array;
  readonly voicing: Voicing;
}

/**
 * Listens for scratches in a stream of samples, block by block, never looking ahead: an onset is
 * judged half a second after it, and counted once it is clear that it was no step of a walk. The
 * same code for the browser, the command line and the tests; its memory does not grow but for the
 * events. Levels are relative: a gain in front of it changes nothing.
 */
export class Detector {
  readonly #resampler: Resampler;
  readonly #signal: SignalWatch;
  readonly #short = new ShortFrames();
  readonly #long = new LongFrames();
  readonly #texture = new TextureMeter();
  readonly #floor = new NoiseFloor();
  readonly #rise = new RiseMeter();
  readonly #onsets = new OnsetFinder();
  readonly #frames = new HeardFrames();
  readonly #lately = new Lately();
  readonly #tally = new Tally();
  readonly #sudden = new SuddenSounds(this.#frames, this.#texture, this.#tally);
  readonly #gate = new GateWatch();
  readonly #trace = new Trace();
  #fine_db = 1.2;
  #first: FirstFrame[] | null = [];
  #pending: Float64Array = new Float64Array(0);

  /** Throws a RangeError for a sampling rate outside 8 to 192 kHz. */
  constructor(rate_hz: number) {
    this.#resampler = new Resampler(rate_hz);
    this.#signal = new SignalWatch(rate_hz);
  }

  /** Takes the next samples, mono, -1 to 1, any number of them; what is no number counts as silence. */
  push(input: Float32Array): void {
    const samples = isSound(input)
      ? input
      : input.map((sample) => (Number.isFinite(sample) ? sample : 0));
    this.#signal.push(samples);
    this.#analyse(this.#resampler.push(samples));
  }

  /** What was found so far. After `finish`, what was found in all. */
  reading(): Reading {
    return this.#tally.reading({
      faults: this.#signal.faults(this.#gate.isGated(frameStep_s)),
      isAutomaticGain: this.#sudden.isAutomaticGain,
    });
  }

  /** The points of the trace since this was last asked. */
  takeTrace(): readonly TracePoint[] {
    return this.#trace.take();
  }

  /** Judges what still waits; to be called once, after the last samples. */
  finish(): Reading {
    if (this.#first !== null) this.#begin();
    this.#sudden.finish(this.#fine_db);
    this.#tally.finish();
    return this.reading();
  }

  #analyse(samples: Float64Array): void {
    // In steps of one hop, so that every clock of the detector runs alike for any block size.
    const all = new Float64Array(this.#pending.length + samples.length);
    all.set(this.#pending);
    all.set(samples, this.#pending.length);
    let at = 0;
    for (; at + frameHop <= all.length; at += frameHop) this.#hop(all.subarray(at, at + frameHop));
    this.#pending = all.slice(at);
  }

  #hop(samples: Float64Array): void {
    this.#texture.push(samples, (texture) => this.#endBlock(texture));
    this.#long.push(samples, (features) => this.#tally.long(features));
    const { voicing } = this.#long;
    this.#short.push(samples, (spectrum) => {
      const powers = new Float64Array(bandCount);
      bandPowers(spectrum, powers);
      if (this.#first === null) {
        this.#frame(spectrum, powers, voicing);
        return;
      }
      this.#first.push({ spectrum: spectrum.slice(), powers, voicing });
      if (this.#first.length >= firstFrames) this.#begin();
    });
  }

  /** The first second is heard before the floor is known; then it is gone through. */
  #begin(): void {
    const first = this.#first ?? [];
    this.#first = null;
    if (first.length === 0) return;
    this.#floor.start(first.map(({ powers }) => powers.map(decibels)));
    for (const { spectrum, powers, voicing } of first) this.#frame(spectrum, powers, voicing);
  }

  #frame(spectrum: Float64Array, powers: Float64Array, voicing: Voicing): void {
    const rise = this.#rise.measure(powers, this.#floor.db);
    const { level_db, low_db } = rise;
    const upper_db = decibels(energyFrom(powers, 4));
    const total_db = decibels(energyFrom(powers, 0));
    const frame = { level_db, low_db, upper_db, total_db };
    this.#frames.add(frame, voicing, spectrum, powers, this.#floor.db);
    const isVoice = voicing.low > 0.6 && level_db > 3;
    this.#lately.follow(this.#frames, upper_db - total_db, isVoice);
    this.#gate.follow(this.#frames);
    this.#tally.frame(isVoice);
    const { count } = this.#frames;
    if (count % maskEvery === 0) this.#tally.mask(voiceNow(this.#frames, count - traitsAfter));
    this.#trace.add(powers, this.#floor.db, count * frameStep_s, this.#long.level_dbfs);
    const raised_db = fineWeight * Math.max(0, this.#fine_db - fineFrom_db);
    const onset = this.#onsets.follow(rise, Math.min(mostRaised_db, raised_db));
    this.#sudden.follow(onset, this.#fine_db);
    this.#floor.follow(powers.map(decibels));
  }

  #endBlock(texture: Texture): void {
    this.#fine_db = texture.fine_db;
    const to_s = this.#frames.count * frameStep_s;
    const { voiceShare, smooth, bright_db } = this.#lately;
    const sustained = sustainedSound(texture, {
      voiceShare,
      smooth,
      bright_db,
      width_s: this.#sudden.usualWidth(to_s),
      onsets_per_min: this.#sudden.perMinute(to_s),
    });
    this.#sudden.isRushing = sustained === 'rush';
    this.#tally.block(sustained, texture, { from_s: to_s - block_s, to_s });
  }
}

/** Whether all samples are numbers: anything else would make their sum one that is none. */
function isSound(samples: Float32Array): boolean {
  let sum = 0;
  for (let n = 0; n < samples.length; n++) sum += samples[n]! * 0;
  return sum === 0;
}
