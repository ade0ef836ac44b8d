// npm run bench -- learning [SEEDS] [NESTS]: invented seasons replayed evening by evening with only
// what was known at 18:00: nothing learned, cue tables and readers learned, weights of the cues and
// spread learned, both. Learned anew every seven nights. Log score, and said against happened above
// 0.2. The last rows: a beach of busy crabs, where far surfaces are noted as dipped more often.
import { performance } from 'node:perf_hooks';
import type { NestId } from '../src/core/domain/nest.ts';
import type { Visit } from '../src/core/domain/visit.ts';
import { type Backtest, backtest } from '../src/core/forecast/backtest.ts';
import { learnCues, type ToLearn } from '../src/core/forecast/learn-cues.ts';
import { LearningMemory } from '../src/core/forecast/learning-memory.ts';
import { ForecastMemory } from '../src/core/forecast/season-memory.ts';
import type { InventedSeasonOptions } from '../src/core/invented-season/invented-season.ts';
import type { NestRecord, SeasonRecord } from '../src/core/log/season-record.ts';
import { randomStream } from '../src/core/numerics/random.ts';
import { type BenchSeason, benchSeason } from './seasons.ts';

const [, , , seedCount = '2', nestCount = '100'] = process.argv;
const seeds = Array.from({ length: Number(seedCount) }, (_, index) => 301 + index);
const nests = Number(nestCount);
/**
 * Share of nights on which a crab marks a nest, and for how many more the mark stays: about five
 * times the share of dips that the default has far from the boil.
 */
const crabs = { share: 0.05, stays_nights: 2 };

const kinds: readonly (readonly [string, Partial<InventedSeasonOptions>, boolean])[] = [
  ['ordinary', {}, false],
  ['hot and dry', { weather: 'hot-dry' }, false],
  ['cold and wet', { weather: 'cold-wet' }, false],
  ['stormy', { weather: 'stormy' }, false],
  ['novices', { observers: 'novice' }, false],
  ['busy crabs', {}, true],
];

const ways: readonly (readonly [string, ToLearn])[] = [
  ['nothing', { tables: false, tuning: false }],
  ['tables', { tables: true, tuning: false }],
  ['weights', { tables: false, tuning: true }],
  ['both', { tables: true, tuning: true }],
];

export async function run(): Promise<void> {
  console.log(`${nests} nests a season, ${seeds.length} seeds of each kind`);
  console.log(
    'season         learned    log score   Brier   met by 3   above 0.2: said happened  n',
  );
  for (const [kind, options, busy] of kinds) {
    const seasons = seeds.map((seed) => {
      const season = benchSeason({ nests, seed, ...options });
      return busy ? { ...season, record: withCrabs(season.record, seed) } : season;
    });
    for (const [way, toLearn] of ways) print(kind, way, seasons, toLearn);
  }
  timeLearning();
  await Promise.resolve();
}

function print(kind: string, way: string, seasons: readonly BenchSeason[], toLearn: ToLearn): void {
  const results = seasons.map(({ record, fates }) => {
    const learning = new LearningMemory(toLearn);
    return backtest(record, fates, (moment) => learning.at(record, moment));
  });
  const mean = (of: (result: Backtest) => number): number =>
    results.reduce((sum, result) => sum + of(result), 0) / results.length;
  const high = results.flatMap(({ reliability }) => reliability.filter(({ band }) => band > 0.2));
  const n = high.reduce((sum, band) => sum + band.n, 0);
  const pooled = (of: 'said' | 'happened'): string =>
    (high.reduce((sum, band) => sum + band[of] * band.n, 0) / Math.max(1, n)).toFixed(3);
  const met = ({ ours }: Backtest): number =>
    ours.metByRank.find(({ pairs }) => pairs === 3)?.share ?? 0;
  console.log(
    [
      kind.padEnd(14),
      way.padEnd(10),
      mean(({ ours }) => ours.logScore).toFixed(5),
      mean(({ ours }) => ours.brier).toFixed(5),
      mean(met).toFixed(3).padStart(8),
      pooled('said').padStart(16),
      pooled('happened'),
      String(n).padStart(5),
    ].join('  '),
  );
}

/**
 * The same season on a beach of busy crabs: at nests of any age some smooth
 * surfaces are noted as dips, a run of nights at a time, whoever looks.
 */
function withCrabs(record: SeasonRecord, seed: number): SeasonRecord {
  const changed = new Map<NestId, NestRecord>();
  for (const [id, nest] of record.nests) {
    const random = randomStream(seed, 'crabs', id);
    let until = -Infinity;
    let night = -Infinity;
    const visits = nest.visits.map((visit): Visit => {
      for (; night < visit.night; night = Math.max(night + 1, visit.night - 200)) {
        if (random.chance(crabs.share)) until = night + 1 + crabs.stays_nights;
      }
      return visit.surface === 'smooth' && visit.night <= until
        ? { ...visit, surface: 'dip' }
        : visit;
    });
    changed.set(id, { ...nest, visits });
  }
  return { ...record, nests: changed };
}

function timeLearning(): void {
  const { record } = benchSeason({ nests: 120, seed: 101 });
  let notes = 0;
  let last = 0;
  for (const { visits } of record.nests.values()) {
    notes += visits.length;
    last = Math.max(last, visits.at(-1)?.night ?? 0);
  }
  const moment = { night: (last + 2) as Visit['night'], at_ms: Infinity };
  const memory = new ForecastMemory();
  memory.effectsOf(memory.workOn(record, moment));
  for (let round = 0; round < 3; round++) {
    const start = performance.now();
    learnCues(record, moment, memory);
    const took_ms = performance.now() - start;
    console.log(`learned from 120 nests and ${notes} notes in ${took_ms.toFixed(0)} ms`);
  }
}
