import type { Look } from './hidden-chain.ts';

/** Looks taken together by half step, in order of time: those of one half step share one true state. */
export interface LookGroups {
  readonly at: Int32Array;
  /** Likelihood of all looks of a group, as in `Look`. */
  readonly likelihood: readonly Float64Array[];
  /** Index of the group of each look. */
  readonly groupOf: Int32Array;
}

/** Groups looks; they come in order of time. */
export function groupLooks(looks: readonly Look[]): LookGroups {
  const at: number[] = [];
  const likelihood: Float64Array[] = [];
  const groupOf = new Int32Array(looks.length);
  looks.forEach((look, index) => {
    const last = at.length - 1;
    if (last >= 0 && at[last] === look.at) {
      likelihood[last] = likelihood[last]!.map((value, cell) => value * look.likelihood[cell]!);
    } else {
      at.push(look.at);
      likelihood.push(look.likelihood);
    }
    groupOf[index] = at.length - 1;
  });
  return { at: Int32Array.from(at), likelihood, groupOf };
}
