/** A sudden sound as it matters for a walk. */
export interface Step {
  readonly at_s: number;
  /** True when it is low rather than bright. */
  readonly isThump: boolean;
}

/** A stretch of time, seconds from the start. */
export interface Stretch {
  readonly from_s: number;
  readonly to_s: number;
}

/** Heel and toe of one step, or the two beats of one crunch, lie within this (common practice, no source). */
const sameStep_s = 0.26;
/** Paces of people, on sand and hurrying (common practice, no source). */
const quickest_s = 0.3;
const slowest_s = 1.1;
/** Steps are even, scratches come when they will: these many intervals, their spread over their mean. */
const evenIntervals = 6;
const evenSpread = 0.12;
/** With thumps among them, fewer and less even. */
const thumpIntervals = 3;
const thumpSpread = 0.2;
/** More sudden sounds a step than this, on the mean, are no walk but a crowd of scratches. */
const mostInStep = 1.6;
/** A walk goes on while of this many sudden sounds most come at its pace; two of three gaps are allowed. */
const recentSteps = 6;
const leastInPace = 4;
const paceSpread = 0.25;
/**
 * Steps on uneven ground, or hands at work: no pace, but this many low sounds within this time, and no
 * fewer than the bright ones (G). Single bumps are fewer.
 */
const lowSounds = 5;
const lowWithin_s = 12;
const leastLow = 0.5;
/** Left and right of the steps that were heard, nothing counts. */
const margin_s = 0.5;
const afterLast_s = 1.3;

interface Walk {
  readonly from_s: number;
  readonly last_s: number;
  readonly pace_s: number;
  /** Of the newest sounds since it began, whether each came at its pace or was low. */
  readonly inPace: readonly boolean[];
}

/** Hears people walk by the evenness of sudden sounds. Call `follow` in the order of time. */
export class StepListener {
  #steps: { at_s: number; isThump: boolean; sounds: number }[] = [];
  #walk: Walk | null = null;
  #lately: Step[] = [];

  /** The walk or handling that goes on, from its first sound to a little after the newest; null for none. */
  follow(step: Step): Stretch | null {
    this.#lately = [...this.#lately, step].filter(({ at_s }) => at_s > step.at_s - lowWithin_s);
    return this.#walking(step) ?? this.#handling();
  }

  #handling(): Stretch | null {
    const low = this.#lately.filter(({ isThump }) => isThump);
    const [first, last] = [low[0], low.at(-1)];
    if (first === undefined || last === undefined) return null;
    if (low.length < lowSounds || low.length < leastLow * this.#lately.length) return null;
    return { from_s: first.at_s - margin_s, to_s: last.at_s + afterLast_s };
  }

  #walking(step: Step): Stretch | null {
    const last = this.#steps.at(-1);
    if (last !== undefined && step.at_s - last.at_s < sameStep_s) {
      last.sounds++;
      last.isThump ||= step.isThump;
      return this.#stretch();
    }
    this.#steps.push({ ...step, sounds: 1 });
    if (this.#steps.length > evenIntervals + 1) this.#steps.shift();
    this.#walk = this.#walk === null ? null : goOn(this.#walk, step);
    this.#walk ??= this.#begin();
    return this.#stretch();
  }

  #stretch(): Stretch | null {
    if (this.#walk === null) return null;
    return { from_s: this.#walk.from_s - margin_s, to_s: this.#walk.last_s + afterLast_s };
  }

  #begin(): Walk | null {
    for (const [intervals, spread, thumps] of [
      [evenIntervals, evenSpread, 0],
      [thumpIntervals, thumpSpread, thumpIntervals - 1],
    ] as const) {
      const run = this.#steps.slice(-intervals - 1);
      if (run.length <= intervals) continue;
      if (run.filter(({ isThump }) => isThump).length < thumps) continue;
      const sounds = run.reduce((sum, each) => sum + each.sounds, 0);
      if (thumps === 0 && sounds > mostInStep * run.length) continue;
      const pace = evenPace(run, spread);
      const [first, last] = [run[0], run.at(-1)];
      if (pace === null || first === undefined || last === undefined) continue;
      return { from_s: first.at_s, last_s: last.at_s, pace_s: pace, inPace: [] };
    }
    return null;
  }
}

/** The walk with one more sudden sound; null once it has passed, or was a crowd of scratches. */
function goOn(walk: Walk, step: Step): Walk | null {
  const since_s = step.at_s - walk.last_s;
  if (since_s > 3.5 * walk.pace_s) return null;
  const paces = Math.max(1, Math.round(since_s / walk.pace_s));
  const isInPace = Math.abs(since_s / paces / walk.pace_s - 1) < paceSpread / paces || step.isThump;
  const inPace = [...walk.inPace, isInPace].slice(-recentSteps);
  const hits = inPace.filter(Boolean).length;
  if (inPace.length === recentSteps && hits < leastInPace) return null;
  return { ...walk, inPace, last_s: isInPace ? step.at_s : walk.last_s };
}

/** Mean interval when all are those of a walk and alike. */
function evenPace(run: readonly Step[], spread: number): number | null {
  const gaps = run.slice(1).map(({ at_s }, index) => at_s - (run[index]?.at_s ?? at_s));
  if (gaps.some((gap) => gap < quickest_s || gap > slowest_s)) return null;
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const variance = gaps.reduce((sum, gap) => sum + (gap - mean) ** 2, 0) / (gaps.length - 1);
  return Math.sqrt(variance) < spread * mean ? mean : null;
}
