import { DropListener, type Knock } from './drops.ts';
import { StepListener } from './footsteps.ts';
import { GainWatch } from './gain-watch.ts';
import type { HeardFrames } from './heard-frames.ts';
import { judgeOnset, type Verdict } from './judge-onset.ts';
import { traitsAfter, traitsOf } from './onset-traits.ts';
import { widthOf } from './onset-width.ts';
import type { Onset } from './onsets.ts';
import { ringingOf } from './ringing.ts';
import { SeriesListener } from './series.ts';
import { strokeOdds } from './stroke-odds.ts';
import type { Tally } from './tally.ts';
import { quantileOf, type TextureMeter } from './texture.ts';

/** Where more of the time than this is voice, sudden sounds are syllables rather than steps. */
const mostVoiceWalking = 0.2;
/** A step may be bright enough to pass for a scratch, but is dull among them. */
const dullStep_db = 1.5;
/** Sudden sounds are counted over this time. */
const sudden_s = 8;
const leastKnocks = 8;
/** Those of no walk, whose likeness to strokes is looked at together. */
const mayBeStrokes: ReadonlySet<Verdict> = new Set(['scratch', 'unlike', 'swell']);
const areKnocks: ReadonlySet<Verdict> = new Set([...mayBeStrokes, 'tone', 'narrow', 'click']);

/** Judges sudden sounds, each once half a second has passed since, and those before it with it. */
export class SuddenSounds {
  readonly #frames: HeardFrames;
  readonly #texture: TextureMeter;
  readonly #tally: Tally;
  readonly #steps = new StepListener();
  readonly #drops = new DropListener();
  readonly #series = new SeriesListener();
  readonly #gain = new GainWatch();
  /** Whether the texture is that of a rush. */
  isRushing = false;
  #waiting: readonly Onset[] = [];
  #sudden: number[] = [];
  #knocks: Knock[] = [];

  /** Looks at frames and texture as they are when asked, and tells the tally. */
  constructor(frames: HeardFrames, texture: TextureMeter, tally: Tally) {
    this.#frames = frames;
    this.#texture = texture;
    this.#tally = tally;
  }

  get isAutomaticGain(): boolean {
    return this.#gain.isAutomatic;
  }

  /** A new one, or none, and another frame; `fine_db` as in `Texture`. */
  follow(onset: Onset | null, fine_db: number): void {
    if (onset !== null) this.#waiting = [...this.#waiting, onset];
    for (let next = this.#waiting[0]; next !== undefined; next = this.#waiting[0]) {
      if (this.#frames.count - next.frame < traitsAfter) return;
      this.#waiting = this.#waiting.slice(1);
      this.#judge(next, fine_db);
    }
  }

  /** Judges those that still wait. */
  finish(fine_db: number): void {
    for (const onset of this.#waiting) this.#judge(onset, fine_db);
    this.#waiting = [];
  }

  /** Those a minute that were no voice, over the last seconds. */
  perMinute(to_s: number): number {
    this.#sudden = this.#sudden.filter((at_s) => at_s > to_s - sudden_s);
    return (this.#sudden.length * 60) / sudden_s;
  }

  /** Median width of those of the last seconds; null when there were hardly any. */
  usualWidth(to_s: number): number | null {
    this.#knocks = this.#knocks.filter(({ at_s }) => at_s > to_s - sudden_s);
    const widths = this.#knocks.map(({ width_s }) => width_s);
    return widths.length < leastKnocks ? null : quantileOf(widths, 0.5);
  }

  #judge(onset: Onset, fine_db: number): void {
    const { at_s, frame } = onset;
    const traits = traitsOf(this.#frames, frame);
    const width = widthOf(this.#texture, frame);
    const odds = strokeOdds({ ...traits, ...width, ...ringingOf(this.#frames, frame) });
    const verdict = judgeOnset(onset, traits, { width_s: width.width_s, odds }, fine_db);
    this.#gain.follow(this.#frames, frame, traits.peak_db);
    if (traits.voiceNear < mostVoiceWalking) {
      this.#sudden.push(at_s);
      const isThump = verdict === 'thump' || traits.bright_db < dullStep_db;
      const walk = this.#steps.follow({ at_s, isThump });
      if (walk !== null) this.#tally.excludeWalk(walk);
    }
    if (areKnocks.has(verdict)) {
      const knock = { at_s, width_s: width.width_s };
      this.#knocks.push(knock);
      const drops = this.#drops.follow(knock);
      if (drops !== null) this.#tally.excludeDrops(drops);
    }
    let doubt = 0;
    if (mayBeStrokes.has(verdict)) {
      const series = this.#series.follow({ at_s, odds }, this.isRushing);
      if (series !== null) this.#tally.excludeDrops(series);
      doubt = this.#series.doubt;
    }
    this.#tally.judged(verdict, { at_s, doubt, ...traits });
  }
}
