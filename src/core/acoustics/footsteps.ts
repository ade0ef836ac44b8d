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
const evenIntervals = 5;
const evenSpread = 0.12;
/** With thumps among them, fewer and less even. */
const thumpIntervals = 3;
const thumpSpread = 0.2;
/** More sudden sounds a step than this, on the mean, are no walk but a crowd of scratches. */
const mostInStep = 1.6;
/** Left and right of the steps that were heard, nothing counts. */
const margin_s = 0.5;
const afterLast_s = 1.3;

/** Hears people walk by the evenness of sudden sounds. Call `follow` in the order of time. */
export class StepListener {
  #steps: { at_s: number; isThump: boolean; sounds: number }[] = [];
  #walk: { readonly from_s: number; last_s: number; readonly pace_s: number } | null = null;

  /** The walk that goes on, from its first step to a little after the newest; null when nobody walks. */
  follow(step: Step): Stretch | null {
    const last = this.#steps.at(-1);
    if (last !== undefined && step.at_s - last.at_s < sameStep_s) {
      last.sounds++;
      last.isThump ||= step.isThump;
      return this.#stretch();
    }
    this.#steps.push({ ...step, sounds: 1 });
    if (this.#steps.length > evenIntervals + 1) this.#steps.shift();
    if (this.#walk !== null) {
      const since_s = step.at_s - this.#walk.last_s;
      const paces = Math.max(1, Math.round(since_s / this.#walk.pace_s));
      const isInPace = Math.abs(since_s / paces / this.#walk.pace_s - 1) < 0.3;
      if (paces <= 3 && (isInPace || step.isThump)) this.#walk.last_s = step.at_s;
      if (since_s > 3.5 * this.#walk.pace_s) this.#walk = null;
    }
    this.#walk ??= this.#begin();
    return this.#stretch();
  }

  #stretch(): Stretch | null {
    if (this.#walk === null) return null;
    return { from_s: this.#walk.from_s - margin_s, to_s: this.#walk.last_s + afterLast_s };
  }

  #begin(): { readonly from_s: number; last_s: number; readonly pace_s: number } | null {
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
      return { from_s: first.at_s, last_s: last.at_s, pace_s: pace };
    }
    return null;
  }
}

/** Mean interval when all are those of a walk and alike. */
function evenPace(run: readonly Step[], spread: number): number | null {
  const gaps = run.slice(1).map(({ at_s }, index) => at_s - (run[index]?.at_s ?? at_s));
  if (gaps.some((gap) => gap < quickest_s || gap > slowest_s)) return null;
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / gaps.length;
  const variance = gaps.reduce((sum, gap) => sum + (gap - mean) ** 2, 0) / (gaps.length - 1);
  return Math.sqrt(variance) < spread * mean ? mean : null;
}
