import { describe, expect, test } from 'vitest';
import { judgeSeasons, openRanks, plainTuning, seedsFrom } from '../../reference/calibration.ts';
import { meanOf, uniformity, uniformityOfGroups } from '../../reference/uniformity.ts';

// The short version of `npm run bench -- calibration`: seasons drawn from the model's own prior. Ranks
// of the truth are uniform when the odds are honest; a chi-square below p = .01 comes by chance once in
// a hundred sets of seeds. Should a change of the prior draw such a set, the long version decides.
const seeds = seedsFrom(1, 80);
const bins = 5;
const anyEvening = { nests: 10, layWeeks: 4, cut: 'any evening' } as const;

describe('in seasons drawn from the prior and cut on any evening', () => {
  const seasons = judgeSeasons(seeds, anyEvening);
  const nests = seasons.flatMap((season) => season.nests.filter(({ open }) => open));

  test('the true season level is as likely to lie anywhere in what was said of it', () => {
    expect(seasons.length).toBe(80);
    expect(seasons.every(({ converged }) => converged)).toBe(true);
    expect(
      uniformity(
        seasons.map(({ rank }) => rank),
        bins,
      ).p,
    ).toBeGreaterThan(0.01);
  });

  test('and so is the night of the boil of a nest that has not been seen to come up', () => {
    expect(nests.length).toBeGreaterThan(500);
    expect(uniformityOfGroups(openRanks(seasons), bins).p).toBeGreaterThan(0.01);
  });

  test('as many boil tonight, boiled unseen and never come as was said', () => {
    for (const event of ['tonight', 'already', 'never'] as const) {
      const differences = nests.map((nest) => Number(nest[event].came) - nest[event].said);
      const { mean, error } = meanOf(differences);
      expect(Math.abs(mean)).toBeLessThan(2.6 * error);
    }
  });

  test('the same ranks give it away when nests are taken to be more alike than they are', () => {
    const sure = judgeSeasons(seeds, anyEvening, { ...plainTuning, spreadFactor: 0.4 });
    expect(uniformityOfGroups(openRanks(sure), bins).p).toBeLessThan(0.01);
  });
});

describe('in seasons cut in mid-hatch', () => {
  const seasons = judgeSeasons(seeds, { nests: 12, layWeeks: 2, cut: 'mid hatch' });

  test('the season level is not read too early, though the mean of the nests that are up is', () => {
    const ours = meanOf(seasons.map(({ error }) => error));
    const naive = meanOf(seasons.flatMap(({ naiveError }) => naiveError ?? []));
    expect(naive.n).toBeGreaterThan(50);
    expect(Math.abs(ours.mean)).toBeLessThan(2 * ours.error);
    expect(naive.mean).toBeLessThan(-4 * naive.error);
  });
});
