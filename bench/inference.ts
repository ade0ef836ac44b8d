// npm run bench -- inference: the odds of 100 to 100,000 nests (a whole coast) from nothing and after
// one more note, each size in a process of its own: nests a second, how it grows, peak memory, and
// the floating-point operations against what the machine does in a plain loop.
import { execFileSync } from 'node:child_process';
import * as z from 'zod';
import type { NestRecord } from '../src/core/log/season-record.ts';
import { ForecastMemory } from '../src/core/forecast/season-memory.ts';
import { forecastSeason } from '../src/core/forecast/tonight.ts';
import { type Coast, coastOf } from './coast.ts';
import { measure } from './measure.ts';
import { operationsOf, plainLoop_perSecond } from './operations.ts';

const sizes = [100, 120, 1_000, 10_000, 100_000];
const notesPerNest = 25;

const Found = z.object({
  nests: z.number(),
  notes: z.number(),
  median_ms: z.number(),
  fastest_ms: z.number(),
  noted_ms: z.number(),
  input_mb: z.number(),
  peak_mb: z.number(),
  operations: z.number(),
});
type Found = z.infer<typeof Found>;

export async function run(): Promise<void> {
  const [, , , size] = process.argv;
  if (size !== undefined) {
    console.log(JSON.stringify(await oneSize(Number(size))));
    return;
  }
  console.log('nests    notes      all odds ms (fastest)  one more note ms  nests/s   MB (input)');
  const found = sizes.map((nests) => {
    const argv = [...process.execArgv, ...process.argv.slice(1, 3), String(nests)];
    const one = Found.parse(JSON.parse(execFileSync(process.execPath, argv, { encoding: 'utf8' })));
    console.log(lineOf(one));
    return one;
  });
  const exponents = found.slice(1).map((one, index) => exponent(found[index] ?? one, one));
  console.log(`growth of the time as nests^x, from size to size: ${exponents.slice(1).join(', ')}`);
  const plain = plainLoop_perSecond();
  console.log(`\nplain loop: ${giga(plain)} thousand million operations a second`);
  for (const { nests, operations, fastest_ms } of found) {
    const done = (operations / fastest_ms) * 1000;
    const share = ((100 * done) / plain).toFixed(0);
    const each = (operations / nests / 1000).toFixed(1);
    console.log(
      `${nests} nests: ${each} thousand a nest, ${giga(done)} a second, ${share} % of it`,
    );
  }
}

async function oneSize(nests: number): Promise<Found> {
  const coast = coastOf(nests, notesPerNest);
  const { record, moment } = coast;
  const input_mb = process.memoryUsage().rss / 2 ** 20;
  const repeats = nests >= 100_000 ? 2 : nests >= 10_000 ? 5 : 20;
  const whole = await measure(() => forecastSeason(record, moment), { repeats, warmUps: 1 });
  const memory = new ForecastMemory();
  forecastSeason(record, moment, memory);
  const noted = await oneNoteMore(coast, memory, repeats);
  return {
    nests,
    notes: coast.notes,
    median_ms: whole.median_ms,
    fastest_ms: whole.fastest_ms,
    noted_ms: noted,
    input_mb,
    peak_mb: whole.peak_mb,
    operations: operationsOf(coast, memory),
  };
}

/** Median time for all odds after one nest has a note more. */
async function oneNoteMore(coast: Coast, memory: ForecastMemory, repeats: number): Promise<number> {
  let { record } = coast;
  const ids = [...record.nests.keys()];
  let turn = 0;
  const note = (): void => {
    const id = ids[(turn++ * 97) % ids.length];
    const nest = id === undefined ? undefined : record.nests.get(id);
    if (id === undefined || nest === undefined) return;
    record = { ...record, nests: new Map(record.nests).set(id, withLook(nest, coast)) };
    forecastSeason(record, coast.moment, memory);
  };
  return (await measure(note, { repeats, warmUps: 2 })).median_ms;
}

function withLook(nest: NestRecord, { moment }: Coast): NestRecord {
  const last = nest.visits.at(-1);
  if (last === undefined) return { ...nest };
  const at_ms = moment.at_ms - 60_000;
  const look = { ...last, at_ms, night: moment.night, surface: 'dip', tracks: null } as const;
  return { ...nest, visits: [...nest.visits, look] };
}

function lineOf(found: Found): string {
  return [
    String(found.nests).padEnd(8),
    String(found.notes).padEnd(10),
    `${found.median_ms.toFixed(0)} (${found.fastest_ms.toFixed(0)})`.padEnd(22),
    found.noted_ms.toFixed(1).padEnd(17),
    ((1000 * found.nests) / found.median_ms).toFixed(0).padEnd(9),
    `${found.peak_mb.toFixed(0)} (${found.input_mb.toFixed(0)})`,
  ].join(' ');
}

const exponent = (small: Found, large: Found): string =>
  (Math.log(large.fastest_ms / small.fastest_ms) / Math.log(large.nests / small.nests)).toFixed(2);

const giga = (perSecond: number): string => (perSecond / 1e9).toFixed(2);
