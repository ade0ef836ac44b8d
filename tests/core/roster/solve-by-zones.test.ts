import { describe, expect, test } from 'vitest';
import { openingsOf } from '../../../src/core/roster/openings.ts';
import { placementsOf } from '../../../src/core/roster/plan.ts';
import type { RosterQuestion } from '../../../src/core/roster/roster-question.ts';
import { solveByZones } from '../../../src/core/roster/solve-by-zones.ts';
import { solveQuestion } from '../../../src/core/roster/solve-question.ts';
import { separateParts } from '../../../src/core/roster/zone-parts.ts';
import { highsSolver } from '../../../src/edges/solver/highs.ts';
import { drawQuestion, pin } from '../../builders/roster-question.ts';
import { wrongsOf } from '../../reference/roster/brute-force.ts';

const solver = highsSolver();
const effort = { time_s: 20, gap: 0 };
/** Fairness may give up this share of the worth (`sparing` in solve-question.ts). */
const sparing = 0.005;

/** Three zones; everybody sits in one of them only. */
function settled(seed: number): RosterQuestion {
  const drawn = drawQuestion({ seed, people: 12, posts: 6, nights: 3, zones: 3, offered: 0.6 });
  const zones = ['Z0', 'Z1', 'Z2'];
  return {
    ...drawn,
    posts: drawn.posts.map((post, index) => ({ ...post, zone: zones[index % 3] ?? '' })),
    sitters: drawn.sitters.map((sitter, index) => ({ ...sitter, zones: [zones[index % 3] ?? ''] })),
  };
}

const zonesOf = (question: RosterQuestion): string[] =>
  separateParts(question, openingsOf(question))
    .map(({ posts }) => [...new Set(posts.map(({ zone }) => zone))].sort().join(' '))
    .sort();

describe('zones that share no people', () => {
  test('are planned apart, which loses nothing, and their bounds add up', async () => {
    for (const seed of [31, 32, 33]) {
      const question = settled(seed);
      expect(zonesOf(question)).toEqual(['Z0', 'Z1', 'Z2']);
      const whole = await solveQuestion(question, openingsOf(question), solver, effort);
      const parts = await solveByZones(question, solver, effort);
      expect(parts.bound).toBeCloseTo(whole.bound, 5);
      expect(parts.plan.value).toBeLessThanOrEqual(parts.bound + 1e-9);
      expect(parts.plan.value).toBeGreaterThanOrEqual(whole.bound * (1 - sparing) - 1e-5);
      expect(wrongsOf(question, parts.plan.posts)).toEqual([]);
      expect(placementsOf(parts.plan).length).toBeGreaterThan(3);
    }
  });

  test('stay together as soon as one person may sit in both, or is pinned in the other', () => {
    const question = settled(31);
    const [one, ...rest] = question.sitters;
    const roaming = { ...question, sitters: [{ ...one!, zones: ['Z0', 'Z1'] }, ...rest] };
    expect(zonesOf(roaming)).toEqual(['Z0 Z1', 'Z2']);
    const other = question.posts.find(({ zone }) => zone === 'Z2')!;
    const pinned = { ...question, pins: [pin(0, other.id, one!.name)] };
    expect(zonesOf(pinned)).toEqual(['Z0 Z2', 'Z1']);
  });

  test('stay together while the posts of all of them are counted', () => {
    const question = settled(31);
    const counted = { ...question, rules: { ...question.rules, mostPosts: 2 } };
    expect(zonesOf(counted)).toEqual(['Z0 Z1 Z2']);
  });
});
