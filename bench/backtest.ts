// npm run bench -- backtest: ten invented seasons (fixed seeds) replayed evening by evening with only
// what was known at 18:00, cues learned anew every seven nights. Share of boils met by three pairs against the calendar rules, and scores.
import { type Backtest, type Score, backtest } from '../src/core/forecast/backtest.ts';
import { LearningMemory } from '../src/core/forecast/learning-memory.ts';
import { benchSeason } from './seasons.ts';

const seeds = [101, 102, 103, 104, 105, 106, 107, 108, 109, 110];
const nests = 120;
const pairs = 3;

const met = (score: Score): number =>
  score.metByRank.find((entry) => entry.pairs === pairs)?.share ?? NaN;

const line = (name: string, { ours, calendar, learned, boils }: Backtest): string =>
  [
    name.padEnd(8),
    String(boils).padStart(5),
    ...[ours, calendar, learned].map((score) => met(score).toFixed(3).padStart(8)),
    ...[ours, calendar, learned].map((score) => score.logScore.toFixed(4).padStart(9)),
    ...[ours, calendar, learned].map((score) => score.brier.toFixed(4).padStart(8)),
  ].join(' ');

export async function run(): Promise<void> {
  const results: Backtest[] = [];
  console.log(`${nests} nests a season; boils met by ${pairs} pairs, log score, Brier; each for`);
  console.log('our odds, the calendar rule (day 55), the calendar rule that learns the mean.');
  console.log(
    'seed     boils     met   day 55 learned       log    day 55  learned    Brier  day 55  learned',
  );
  for (const seed of seeds) {
    const { record, fates } = benchSeason({ nests, seed });
    const learning = new LearningMemory();
    const result = backtest(record, fates, (moment) => learning.at(record, moment));
    results.push(result);
    console.log(line(String(seed), result));
  }
  console.log(line('all', mean(results)));
  console.log('\nreliability: said, happened, n');
  for (const band of pooled(results)) {
    console.log(`${band.said.toFixed(3)}  ${band.happened.toFixed(3)}  ${band.n}`);
  }
  await Promise.resolve();
}

/** Means over seasons, boils added up. */
function mean(results: readonly Backtest[]): Backtest {
  const over = (pick: (result: Backtest) => Score): Score => {
    const scores = results.map(pick);
    const average = (value: (score: Score) => number): number =>
      scores.reduce((sum, score) => sum + value(score), 0) / scores.length;
    return {
      logScore: average((score) => score.logScore),
      brier: average((score) => score.brier),
      metByRank: [{ pairs, share: average(met) }],
    };
  };
  return {
    nights: 0,
    boils: results.reduce((sum, result) => sum + result.boils, 0),
    ours: over((result) => result.ours),
    calendar: over((result) => result.calendar),
    learned: over((result) => result.learned),
    reliability: [],
  };
}

function pooled(results: readonly Backtest[]): { said: number; happened: number; n: number }[] {
  const bands = new Map<number, { said: number; happened: number; n: number }>();
  for (const { reliability } of results) {
    for (const { band, said, happened, n } of reliability) {
      const sum = bands.get(band) ?? { said: 0, happened: 0, n: 0 };
      sum.said += said * n;
      sum.happened += happened * n;
      sum.n += n;
      bands.set(band, sum);
    }
  }
  return [...bands]
    .sort(([a], [b]) => a - b)
    .map(([, { said, happened, n }]) => ({ said: said / n, happened: happened / n, n }));
}
