// npm run bench -- calibration: simulation-based calibration. Seasons are drawn from the model's own
// prior; when the odds are honest the rank of the truth in what was said is uniform. Then seasons cut in
// mid-hatch: the level must not be read too early because only the early nests are up.
import { defaultTuning } from '../src/core/forecast/tuning.ts';
import {
  type JudgedSeason,
  judgeSeasons,
  oneRankEach,
  openRanks,
  plainTuning,
  seedsFrom,
} from '../tests/reference/calibration.ts';
import {
  type Uniformity,
  meanOf,
  uniformity,
  uniformityOfGroups,
} from '../tests/reference/uniformity.ts';

const seasonsDrawn = 400;
const bins = 20;
const anyEvening = { nests: 10, layWeeks: 4, cut: 'any evening' } as const;
const midHatch = { nests: 12, layWeeks: 2, cut: 'mid hatch' } as const;
/** Days of incubation at which a difference on the log scale is told in days. */
const levelDays = 55;

export async function run(): Promise<void> {
  const seeds = seedsFrom(1, seasonsDrawn);
  const seasons = judgeSeasons(seeds, anyEvening);
  console.log(`${seasonsDrawn} seasons of ${anyEvening.nests} nests, cut on any evening\n`);
  tellRanks(
    'season level',
    seasons.map(({ rank }) => rank),
  );
  tellRanks('night of the boil, one open nest of each season', oneRankEach(seasons, 1));
  tellTest('night of the boil, all open nests', uniformityOfGroups(openRanks(seasons), bins));
  tellSaid(seasons);
  tellConvergence(seasons);

  console.log('\nfor comparison, the same seasons judged by odds that believe something else');
  const believed = {
    'nests half as far apart': { ...plainTuning, spreadFactor: 0.5 },
    'cues at their default powers': defaultTuning,
  };
  for (const [name, tuning] of Object.entries(believed)) {
    const judged = judgeSeasons(seeds, anyEvening, tuning);
    tellTest(name, uniformityOfGroups(openRanks(judged), bins));
  }

  console.log(
    `\n${seasonsDrawn} seasons of ${midHatch.nests} nests, cut when the middle one is due`,
  );
  const cut = judgeSeasons(seeds, midHatch);
  tellRanks(
    'season level',
    cut.map(({ rank }) => rank),
  );
  tellError(
    'our season level',
    cut.map(({ error }) => error),
  );
  tellError(
    'the mean of the nests seen boiling',
    cut.flatMap(({ naiveError }) => naiveError ?? []),
  );
  await Promise.resolve();
}

function tellRanks(name: string, ranks: readonly number[]): void {
  tellTest(name, uniformity(ranks, bins));
}

/** Counts of ranks in equal bins from 0 to 1, and the chi-square of their being uniform. */
function tellTest(name: string, { n, counts, chiSquare, p }: Uniformity): void {
  const test = `chi-square ${chiSquare.toFixed(1)} on ${bins - 1}, p = ${p.toPrecision(2)}`;
  console.log(`ranks of ${name}: n ${n}, ${test}`);
  console.log(`  ${counts.map((count) => String(count).padStart(4)).join('')}`);
}

/** Of the nests not seen boiling: how many were said to boil tonight, and so on, and how many did. */
function tellSaid(seasons: readonly JudgedSeason[]): void {
  const open = seasons.flatMap(({ nests }) => nests.filter((nest) => nest.open));
  console.log(`\n${open.length} nests open at the cut: said, came, difference with standard error`);
  for (const event of ['tonight', 'already', 'never'] as const) {
    const said = meanOf(open.map((nest) => nest[event].said)).mean;
    const came = meanOf(open.map((nest) => Number(nest[event].came))).mean;
    const { mean, error } = meanOf(open.map(({ [event]: e }) => Number(e.came) - e.said));
    const difference = `${mean.toFixed(4)} +- ${error.toFixed(4)}`;
    console.log(`  ${event.padEnd(8)} ${said.toFixed(4)}  ${came.toFixed(4)}  ${difference}`);
  }
}

function tellConvergence(seasons: readonly JudgedSeason[]): void {
  const settled = seasons.filter(({ converged }) => converged).length;
  const squares = meanOf(seasons.map(({ error, sd }) => (error / sd) ** 2)).mean;
  const spread = `errors of the level are ${Math.sqrt(squares).toFixed(3)} of the spread said`;
  console.log(`\nconverged in ${settled} of ${seasons.length} seasons; ${spread}`);
}

function tellError(name: string, errors: readonly number[]): void {
  const { n, mean, error } = meanOf(errors);
  const days = `${(mean * levelDays).toFixed(2)} +- ${(error * levelDays).toFixed(2)} days`;
  console.log(
    `mean error of ${name}: ${days} at ${levelDays} (n ${n}, ${(mean / error).toFixed(1)} SE)`,
  );
}
