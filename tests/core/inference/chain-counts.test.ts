import { describe, expect, test } from 'vitest';
import { cueChains } from '../../../src/core/forecast/cue-chains.ts';
import { chainCounts } from '../../../src/core/inference/chain-counts.ts';
import {
  type ChainModel,
  type Look,
  chainEvidence,
} from '../../../src/core/inference/hidden-chain.ts';
import { groupLooks } from '../../../src/core/inference/look-groups.ts';
import { runningEvidence } from '../../../src/core/inference/running-evidence.ts';

const chains = cueChains();
const { reach } = chains.surface;
const far = reach;
const after = reach + 1;

const seen = (at: number, reading: Parameters<typeof chains.surfaceLook>[0]): Look => ({
  at,
  likelihood: chains.surfaceLook(reading, 'novice'),
});

/** Two notes in one half night, gaps of several, and readings that do not agree. */
const looks = [seen(100, 'smooth'), seen(102, 'dip'), seen(102, 'smooth'), seen(105, 'depression')];
const halves = [100, 102, 105];

/** Expected counts by walking every path of states from the first look to the last. */
function byEnumeration(model: ChainModel, event: number | null) {
  const row = (half: number): number => {
    if (event === null) return far;
    return half > event ? after : Math.min(event - half, reach);
  };
  const rowAt = (index: number, s: number): number => model.rows[index * 4 + s]!;
  const share = (half: number): number => {
    const to = row(half);
    return to === after ? model.afterRedraw : to === far ? model.farRedraw : model.redraw[to]!;
  };
  const move = (half: number, i: number, j: number): number => {
    const to = row(half);
    if (event !== null && half === event + 1) return model.afterStart[j]!;
    if (to < reach) return model.steps[to * 16 + i * 4 + j]!;
    return (i === j ? 1 - share(half) : 0) + share(half) * rowAt(far, j);
  };
  /** Chance that a move was a redraw, given where it went. */
  const drawn = (half: number, i: number, j: number): number =>
    (share(half) * rowAt(Math.min(row(half), far), j)) / move(half, i, j);
  const weighed = (half: number, s: number): number =>
    looks
      .filter((look) => look.at === half)
      .reduce((product, look) => product * look.likelihood[row(half) * 4 + s]!, 1);
  const first = event !== null && event < 100 ? event + 1 : 100;
  const last = halves.at(-1)!;
  const firstAfter = event === null ? undefined : halves.find((half) => half > event);
  const atLooks = new Float64Array(halves.length * (reach + 2) * 4);
  const redraws = new Float64Array(reach + 2);
  const afterStart = new Float64Array(4);
  let total = 0;
  const path: number[] = [];
  const walk = (half: number, weight: number): void => {
    if (half > last) {
      total += weight;
      halves.forEach((look, group) => {
        const cell = (group * (reach + 2) + row(look)) * 4 + path[look - first]!;
        atLooks[cell] = atLooks[cell]! + weight;
      });
      for (let group = 1; group < halves.length; group++) {
        // Moves between two looks of which one was made before the event and one after tell of
        // neither: the chain starts anew in between.
        if ((row(halves[group]!) === after) !== (row(halves[group - 1]!) === after)) continue;
        for (let to = halves[group - 1]! + 1; to <= halves[group]!; to++) {
          const chance = drawn(to, path[to - 1 - first]!, path[to - first]!);
          redraws[row(to)] = redraws[row(to)]! + weight * chance;
        }
      }
      if (event !== null && firstAfter !== undefined) {
        let kept = weight;
        for (let to = event + 2; to <= firstAfter; to++) {
          kept *= 1 - drawn(to, path[to - 1 - first]!, path[to - first]!);
        }
        const start = path[event + 1 - first]!;
        afterStart[start] = afterStart[start]! + kept;
      }
      return;
    }
    for (let s = 0; s < 4; s++) {
      const begin = row(half) === after ? model.afterStart[s]! : rowAt(row(half), s);
      const chance = half === first ? begin : move(half, path[half - 1 - first]!, s);
      path[half - first] = s;
      walk(half + 1, weight * chance * weighed(half, s));
    }
  };
  walk(first, 1);
  const scaled = (values: Float64Array): number[] => Array.from(values, (value) => value / total);
  return { atLooks: scaled(atLooks), redraws: scaled(redraws), afterStart: scaled(afterStart) };
}

const close = (found: Float64Array, naive: readonly number[]): void => {
  naive.forEach((value, index) => {
    expect(Math.abs(found[index]! - value)).toBeLessThan(1e-11);
  });
};

describe('expected counts against naive enumeration of every path of a short season', () => {
  for (const event of [98, 101, 102, 104, 105, 108, 122, 124, null]) {
    test(event === null ? 'a boil that never comes' : `a boil on half night ${event}`, () => {
      const candidates = event === null ? [130] : [event, 130];
      const weights = event === null ? [0, 1] : [1, 0, 0];
      const found = chainCounts(chains.surface, groupLooks(looks), candidates, weights);
      const naive = byEnumeration(chains.surface, event);
      close(found.atLooks, naive.atLooks);
      close(found.redraws, naive.redraws);
      close(found.afterStart, naive.afterStart);
    });
  }

  test('several nights that may be the boil: the mean of their counts by their chances', () => {
    const candidates = [101, 104, 108, 140];
    const weights = [0.2, 0.3, 0.1, 0.15, 0.25];
    const found = chainCounts(chains.surface, groupLooks(looks), candidates, weights);
    const each = [101, 104, 108, 140, null].map((event) => byEnumeration(chains.surface, event));
    for (const kind of ['atLooks', 'redraws', 'afterStart'] as const) {
      const mean = each[0]![kind].map((_, cell) =>
        each.reduce((sum, counts, index) => sum + weights[index]! * counts[kind][cell]!, 0),
      );
      close(found[kind], mean);
    }
  });
});

test('every look counts once, and every half night between looks once', () => {
  const { atLooks, moves } = chainCounts(
    chains.surface,
    groupLooks(looks),
    [104, 108, 140],
    [0.1, 0.4, 0.3, 0.2],
  );
  expect(atLooks.reduce((sum, value) => sum + value, 0)).toBeCloseTo(halves.length, 12);
  // A boil on 104 falls between the looks on 102 and 105: those three half nights tell of no moves.
  expect(moves.reduce((sum, value) => sum + value, 0)).toBeCloseTo(5 - 0.1 * 3, 12);
});

test('what was known as time went on is what the looks up to then say', () => {
  const candidates = [98, 101, 102, 104, 108, 121, 122, 123, 140];
  const groups = groupLooks(looks);
  const running = runningEvidence(chains.surface, groups, candidates);
  halves.forEach((half, group) => {
    const upTo = looks.filter(({ at }) => at <= half);
    const { byCandidate, never } = chainEvidence(chains.surface, upTo, candidates);
    [...byCandidate, never].forEach((log, index) => {
      const found = running[(group + 1) * (candidates.length + 1) + index]!;
      expect(Math.abs(found - log)).toBeLessThan(1e-11);
    });
  });
});
