import { analysisRate_hz, frameHop, frameStep_s, framesPerSecond } from './analysis-rate.ts';
import { bandCount, bandPowers, binsIn, firstScratchBand } from './bands.ts';
import { longFeatures, longFrame } from './features.ts';
import { DropListener, type Knock } from './drops.ts';
import { type Stretch, StepListener } from './footsteps.ts';
import { GainWatch } from './gain-watch.ts';
import { HeardFrames } from './heard-frames.ts';
import { judgeOnset, type Verdict } from './judge-onset.ts';
import { NoiseFloor } from './noise-floor.ts';
import { traitsAfter, traitsOf } from './onset-traits.ts';
import { type Onset, OnsetFinder } from './onsets.ts';
import { Pitch, type Voicing } from './pitch.ts';
import { type Reading } from './reading.ts';
import { Resampler } from './resample.ts';
import { RiseMeter } from './rise.ts';
import { widthOf } from './onset-width.ts';
import { ShortFrames } from './short-frames.ts';
import { SignalWatch } from './signal-faults.ts';
import { smoothness } from './tonality.ts';
import { type Sustained, sustainedSound } from './sustained.ts';
import { Tally } from './tally.ts';
import { type Texture, TextureMeter, block_s, quantileOf } from './texture.ts';

/** Frames from which the floor is first estimated: one second. */
const firstFrames = framesPerSecond;
/** Frames in one point of the trace: 64 ms. */
const framesInPoint = 8;
/** How far the rise of an onset must be raised where the sound is restless, dB a dB of fine spread (G). */
const fineWeight = 3;
const fineFrom_db = 1.5;
const mostRaised_db = 5;
/** Where more of the time than this is voice, sudden sounds are syllables rather than steps. */
const mostVoiceWalking = 0.2;
/** A step may be bright enough to pass for a scratch, but is dull among them. */
const dullStep_db = 1.5;
/** Sudden sounds are counted over this time. */
const sudden_s = 8;
const leastKnocks = 8;
/** Weight of the newest long frame in the running means: some two seconds. */
const slowly = 0.015;

/** Level and floor of the scratching bands over time, for drawing; decibels of full scale. */
export interface TracePoint {
  readonly at_s: number;
  /** Of all that is heard. */
  readonly whole_dbfs: number;
  readonly level_dbfs: number;
  readonly floor_dbfs: number;
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
  readonly #texture = new TextureMeter();
  readonly #floor = new NoiseFloor();
  readonly #rise = new RiseMeter();
  readonly #onsets = new OnsetFinder();
  readonly #frames = new HeardFrames();
  readonly #pitch = new Pitch(longFrame);
  readonly #steps = new StepListener();
  readonly #drops = new DropListener();
  readonly #gain = new GainWatch();
  readonly #tally = new Tally();
  readonly #long = new Float64Array(longFrame);
  #longFilled = 0;
  #isOther = false;
  #level_dbfs = -140;
  #voicing: Voicing = { whole: 0, low: 0 };
  #voiceShare = 0;
  #smooth = 0.75;
  #bright_db = 0;
  #fine_db = 1.2;
  #first:
    | {
        readonly spectrum: Float64Array;
        readonly powers: Float64Array;
        readonly voicing: Voicing;
      }[]
    | null = [];
  #waiting: Onset[] = [];
  #sudden: number[] = [];
  #knocks: Knock[] = [];
  #trace: TracePoint[] = [];
  #point = { frames: 0, level: 0, floor: 0 };
  #pendingSamples: Float64Array = new Float64Array(0);

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
      faults: this.#signal.faults(),
      isAutomaticGain: this.#gain.isAutomatic,
    });
  }

  /** The points of the trace since this was last asked. */
  takeTrace(): readonly TracePoint[] {
    const taken = this.#trace;
    this.#trace = [];
    return taken;
  }

  /** Judges what still waits; to be called once, after the last samples. */
  finish(): Reading {
    if (this.#first !== null) this.#begin();
    for (const onset of this.#waiting) this.#judge(onset);
    this.#waiting = [];
    this.#tally.finish();
    return this.reading();
  }

  #analyse(samples: Float64Array): void {
    // In steps of one hop, so that every clock of the detector runs alike for any block size.
    const all = new Float64Array(this.#pendingSamples.length + samples.length);
    all.set(this.#pendingSamples);
    all.set(samples, this.#pendingSamples.length);
    let at = 0;
    for (; at + frameHop <= all.length; at += frameHop) this.#hop(all.subarray(at, at + frameHop));
    this.#pendingSamples = all.slice(at);
  }

  #hop(samples: Float64Array): void {
    this.#texture.push(samples, (texture) => this.#endBlock(texture));
    this.#follow(samples);
    this.#short.push(samples, (spectrum) => {
      const powers = new Float64Array(bandCount);
      bandPowers(spectrum, powers);
      if (this.#first === null) {
        this.#frame(spectrum, powers, this.#voicing);
        return;
      }
      this.#first.push({ spectrum: spectrum.slice(), powers, voicing: this.#voicing });
      if (this.#first.length >= firstFrames) this.#begin();
    });
  }

  /** The long frames, for voices. */
  #follow(samples: Float64Array): void {
    this.#long.set(samples, this.#longFilled);
    this.#longFilled += samples.length;
    if (this.#longFilled < longFrame) return;
    this.#voicing = this.#pitch.voicing(this.#long);
    this.#isOther = !this.#isOther;
    if (this.#isOther) {
      // Every other long frame: for these those that do not overlap are enough.
      const features = longFeatures(Float32Array.from(this.#long));
      this.#level_dbfs = decibels((features?.rms ?? 0) ** 2);
      this.#tally.long(features);
    }
    this.#long.copyWithin(0, longFrame / 2);
    this.#longFilled = longFrame / 2;
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
    const [upper_db, total_db] = [decibels(energyFrom(powers, 4)), decibels(energyFrom(powers, 0))];
    const { level_db, low_db } = rise;
    this.#frames.add(
      { level_db, low_db, upper_db, total_db },
      voicing,
      spectrum,
      powers,
      this.#floor.db,
    );
    const isVoice = voicing.low > 0.6 && level_db > 3;
    this.#voiceShare += slowly * ((isVoice ? 1 : 0) - this.#voiceShare) * 0.4;
    this.#bright_db += slowly * (upper_db - total_db - this.#bright_db) * 0.4;
    this.#tally.frame(isVoice);
    this.#draw(powers);
    const count = this.#frames.count;
    if (count % 4 === 0) this.#smooth += slowly * (this.#smoothNow(count) - this.#smooth);
    const raised_db = Math.min(
      mostRaised_db,
      fineWeight * Math.max(0, this.#fine_db - fineFrom_db),
    );
    const onset = this.#onsets.follow(rise, raised_db);
    if (onset !== null) this.#waiting.push(onset);
    while (this.#waiting[0] !== undefined && count - this.#waiting[0].frame >= traitsAfter) {
      const [next, ...others] = this.#waiting;
      this.#waiting = others;
      this.#judge(next);
    }
    this.#floor.follow(powers.map(decibels));
  }

  #smoothNow(count: number): number {
    const sum = new Float64Array(this.#frames.spectrum(count - 1).length);
    for (let back = 1; back <= 4; back++) {
      const power = this.#frames.spectrum(count - back);
      for (let bin = 0; bin < sum.length; bin++) sum[bin] = sum[bin]! + power[bin]!;
    }
    return smoothness(
      sum,
      Float64Array.from(binsIn, (bins, band) => bins * this.#frames.power(count - 1, band)),
    );
  }

  #judge(onset: Onset): void {
    const traits = traitsOf(this.#frames, onset.frame);
    const width_s = widthOf(this.#texture, onset.frame);
    const verdict: Verdict = judgeOnset(onset, traits, width_s, this.#fine_db);
    this.#gain.follow(this.#frames, onset.frame, traits.peak_db);
    const isStep = traits.voiceNear < mostVoiceWalking;
    if (isStep) this.#sudden.push(onset.at_s);
    const walk: Stretch | null = isStep
      ? this.#steps.follow({
          at_s: onset.at_s,
          isThump: verdict === 'thump' || traits.bright_db < dullStep_db,
        })
      : null;
    if (walk !== null) this.#tally.excludeWalk(walk);
    if (verdict !== 'voice' && verdict !== 'thump' && verdict !== 'faint') {
      const knock = { at_s: onset.at_s, width_s };
      this.#knocks.push(knock);
      const drops = this.#drops.follow(knock);
      if (drops !== null) this.#tally.excludeDrops(drops);
    }
    this.#tally.judged(verdict, onset.at_s, traits.over_db, traits.length_s);
  }

  #endBlock(texture: Texture): void {
    this.#fine_db = texture.fine_db;
    const to_s = this.#frames.count * frameStep_s;
    this.#sudden = this.#sudden.filter((at_s) => at_s > to_s - sudden_s);
    const sustained: Sustained = sustainedSound(texture, {
      voiceShare: this.#voiceShare,
      smooth: this.#smooth,
      bright_db: this.#bright_db,
      width_s: this.#usualWidth(to_s),
      onsets_per_min: (this.#sudden.length * 60) / sudden_s,
    });
    this.#tally.block(sustained, texture, { from_s: to_s - block_s, to_s });
  }

  /** Median width of the sudden sounds of the last seconds. */
  #usualWidth(to_s: number): number | null {
    this.#knocks = this.#knocks.filter(({ at_s }) => at_s > to_s - sudden_s);
    const widths = this.#knocks.map(({ width_s }) => width_s);
    return widths.length < leastKnocks ? null : quantileOf(widths, 0.5);
  }

  #draw(powers: Float64Array): void {
    const point = this.#point;
    point.level += energyFrom(powers, firstScratchBand);
    point.floor += energyFrom(
      this.#floor.db.map((db) => 10 ** (db / 10)),
      firstScratchBand,
    );
    point.frames++;
    if (point.frames < framesInPoint) return;
    this.#trace.push({
      at_s: (this.#frames.count * frameHop) / analysisRate_hz,
      whole_dbfs: this.#level_dbfs,
      level_dbfs: decibels(point.level / framesInPoint / halfSpectrum),
      floor_dbfs: decibels(point.floor / framesInPoint / halfSpectrum),
    });
    this.#point = { frames: 0, level: 0, floor: 0 };
  }
}

/** Whether all samples are numbers: anything else would make their sum one that is none. */
function isSound(samples: Float32Array): boolean {
  let sum = 0;
  for (let n = 0; n < samples.length; n++) sum += samples[n]! * 0;
  return sum === 0;
}

/** White noise of full power has mean power 1 in each of these bins. */
const halfSpectrum = 128;

const decibels = (power: number): number => 10 * Math.log10(power + 1e-14);

function energyFrom(powers: Float64Array, first: number): number {
  let sum = 0;
  for (let band = first; band < bandCount; band++) sum += powers[band]! * binsIn[band]!;
  return sum;
}
