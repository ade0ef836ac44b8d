// npm run bench -- quality [SEEDS] [NESTS] [KIND …]: invented seasons of every kind of weather and
// record, replayed evening by evening with only what was known at 18:00: log score a nest and
// evening, Brier, and share of boils met by three pairs; with and without temperatures, with and
// without two earlier seasons on file; beside the calendar rules and one-look tables.
import { type Backtest, type Score, backtest } from '../src/core/forecast/backtest.ts';
import { learnArchive } from '../src/core/forecast/archive.ts';
import { LearningMemory } from '../src/core/forecast/learning-memory.ts';
import { ForecastMemory } from '../src/core/forecast/season-memory.ts';
import type { InventedSeasonOptions } from '../src/core/invented-season/invented-season.ts';
import type { SeasonRecord } from '../src/core/log/season-record.ts';
import { oneLookScore } from './one-look.ts';
import { type BenchSeason, benchSeason } from './seasons.ts';

const kinds: Record<string, Partial<InventedSeasonOptions>> = {
  ordinary: {},
  'hot-dry': { weather: 'hot-dry' },
  'cold-wet': { weather: 'cold-wet' },
  stormy: { weather: 'stormy' },
  novices: { observers: 'novice' },
  gaps: { missing: 0.4 },
};
const [, , , seedCount = '20', nestCount = '40', ...wanted] = process.argv;
const seeds = Array.from({ length: Number(seedCount) }, (_, index) => 501 + index);
const nests = Number(nestCount);
const pairs = 3;
/** Cues are learned anew once in so many nights. */
const learnEvery_nights = 21;

interface Row {
  logScore: number;
  brier: number;
  met: number;
}

export async function run(): Promise<void> {
  console.log(`${nests} nests a season, ${seeds.length} seasons of each kind (seeds from 501)`);
  console.log(`${'season'.padEnd(10)} ${'by'.padEnd(34)} log score   Brier    met by ${pairs}`);
  for (const kind of wanted.length > 0 ? wanted : Object.keys(kinds)) replay(kind);
  await Promise.resolve();
}

function replay(kind: string): void {
  const rows = new Map<string, Row[]>();
  const bands = new Map<number, { said: number; happened: number; n: number }>();
  const add = (name: string, row: Row): void => {
    rows.set(name, [...(rows.get(name) ?? []), row]);
  };
  for (const seed of seeds) {
    const season = benchSeason({ nests, seed, ...kinds[kind] });
    const earlier = [2024, 2025].map(
      (year, back) => benchSeason({ nests, seed: seed + 1000 * (back + 1), year }).record,
    );
    const plain = replayed(season, []);
    add('ours', rowOf(plain.ours));
    const bare = withoutTemperature(season);
    add('ours, no temperature', rowOf(replayed(bare, []).ours));
    add('ours, two earlier seasons', rowOf(replayed(season, earlier).ours));
    add('ours, two earlier, no temperature', rowOf(replayed(bare, earlier.map(stripped)).ours));
    const look = oneLookScore(season.record, season.fates);
    add('one-look tables', { logScore: look.logScore, brier: NaN, met: look.met });
    add('calendar, day 55', rowOf(plain.calendar));
    add('calendar, season’s own mean', rowOf(plain.learned));
    gather(bands, plain);
  }
  for (const [name, list] of rows) console.log(lineOf(kind, name, list));
  for (const [, { said, happened, n }] of [...bands].sort(([a], [b]) => a - b)) {
    const expected = said * n;
    const z = (happened * n - expected) / Math.sqrt(Math.max(1e-9, expected * (1 - said)));
    console.log(
      `   said ${said.toFixed(3)} happened ${happened.toFixed(3)} n ${n} (${z.toFixed(1)} SE)`,
    );
  }
}

function replayed({ record, fates }: BenchSeason, finished: readonly SeasonRecord[]): Backtest {
  const archive = finished.length === 0 ? null : learnArchive(finished, () => new ForecastMemory());
  const first = new ForecastMemory({ archive });
  const learning = new LearningMemory(
    { tables: true, tuning: true },
    finished,
    learnEvery_nights,
    first,
  );
  return backtest(record, fates, (moment) => learning.at(record, moment));
}

const stripped = (record: SeasonRecord): SeasonRecord => ({ ...record, conditions: [] });

const withoutTemperature = ({ record, fates }: BenchSeason): BenchSeason => ({
  record: stripped(record),
  fates,
});

const rowOf = ({ logScore, brier, metByRank }: Score): Row => ({
  logScore,
  brier,
  met: metByRank.find((entry) => entry.pairs === pairs)?.share ?? NaN,
});

function gather(
  bands: Map<number, { said: number; happened: number; n: number }>,
  { reliability }: Backtest,
): void {
  for (const { band, said, happened, n } of reliability) {
    const known = bands.get(band) ?? { said: 0, happened: 0, n: 0 };
    const total = known.n + n;
    bands.set(band, {
      said: (known.said * known.n + said * n) / total,
      happened: (known.happened * known.n + happened * n) / total,
      n: total,
    });
  }
}

function lineOf(kind: string, name: string, list: readonly Row[]): string {
  const mean = (of: (row: Row) => number): number =>
    list.reduce((sum, row) => sum + of(row), 0) / list.length;
  const brier = mean((row) => row.brier);
  return [
    kind.padEnd(10),
    name.padEnd(34),
    mean((row) => row.logScore).toFixed(5),
    Number.isNaN(brier) ? '   -   ' : brier.toFixed(5),
    mean((row) => row.met).toFixed(3),
  ].join(' ');
}
