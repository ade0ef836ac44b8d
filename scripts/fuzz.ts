// npm run fuzz: ten thousand damaged, odd and hostile inputs for all that takes something in.
//   npm run fuzz -- --inputs 10000 --seed 7 --only "season folder"
// Each importer runs in a process of its own, which is ended when it hangs.
import { fork } from 'node:child_process';
import { parseArgs } from 'node:util';
import * as z from 'zod/mini';
import { allImporters } from '../tests/fuzz/all-importers.ts';
import { feed } from '../tests/fuzz/feed.ts';

/** An input of up to a megabyte must be done within this; larger ones in proportion. */
const MOST_MS = 2_000;
/** No answer for so long means that it hangs. */
const HANGS_MS = 60_000;

const Told = z.object({
  at: z.number(),
  done: z.nullable(
    z.object({
      bytes: z.number(),
      took_ms: z.number(),
      outcome: z.union([z.string(), z.object({ broken: z.string() })]),
    }),
  ),
});

interface Tally {
  inputs: number;
  refused: number;
  inPart: number;
  taken: number;
  worst_ms: number;
  readonly faults: string[];
}

const { values } = parseArgs({
  options: {
    inputs: { type: 'string', default: '10000' },
    seed: { type: 'string' },
    only: { type: 'string', default: '' },
    child: { type: 'string' },
  },
});
const seed = Number(values.seed ?? Math.floor(Date.now() / 1000));
const chosen = allImporters.filter(({ name }) => name.includes(values.only));
const each = Math.ceil(Number(values.inputs) / Math.max(1, chosen.length));

if (values.child !== undefined) await feedAll(values.child);
else await tellAll();

/** In the process of one importer: reads its inputs and tells of each. */
async function feedAll(name: string): Promise<void> {
  const importer = allImporters.find((one) => one.name === name);
  if (importer === undefined) throw new Error(`There is no importer "${name}".`);
  for (let at = 0; at < each; at++) {
    process.send?.({ at, done: null });
    const done = await feed(importer, seed, at);
    await new Promise((sent) => process.send?.({ at, done }, sent));
  }
  await importer.close?.();
  process.disconnect();
}

async function tellAll(): Promise<void> {
  console.log(`seed ${seed}, ${each} inputs for each of ${chosen.length} importers`);
  const lines: string[] = [];
  let faults = 0;
  for (const { name } of chosen) {
    const tally = await run(name);
    faults += tally.faults.length;
    for (const fault of tally.faults.slice(0, 5)) console.error(`${name}, ${fault}`);
    const { inputs, refused, inPart, taken, worst_ms } = tally;
    const cells = [
      inputs,
      refused,
      inPart,
      taken,
      `${Math.round(worst_ms)} ms`,
      tally.faults.length,
    ];
    lines.push(
      `| ${name.padEnd(40)} | ${cells.map((cell) => String(cell).padStart(8)).join(' | ')} |`,
    );
    console.log(lines.at(-1));
  }
  const heads = ['inputs', 'refused', 'in part', 'taken', 'worst', 'faults'];
  console.log(
    `\n| ${'importer'.padEnd(40)} | ${heads.map((head) => head.padStart(8)).join(' | ')} |`,
  );
  console.log(`| ${'-'.repeat(40)} | ${heads.map(() => `${'-'.repeat(7)}:`).join(' | ')} |`);
  console.log(lines.join('\n'));
  console.log(`\n${each * chosen.length} inputs, ${faults} faults; again with --seed ${seed}`);
  process.exitCode = faults === 0 ? 0 : 1;
}

/** Runs one importer to its end, or until it hangs. */
function run(name: string): Promise<Tally> {
  const tally: Tally = { inputs: 0, refused: 0, inPart: 0, taken: 0, worst_ms: 0, faults: [] };
  const args = ['--child', name, '--seed', String(seed), '--inputs', String(each), '--only', name];
  const child = fork(import.meta.filename, args);
  let now = 0;
  return new Promise((settle) => {
    const hangs = (): void => {
      tally.faults.push(`input ${now}: no answer in ${HANGS_MS / 1000} seconds`);
      child.kill('SIGKILL');
    };
    let timer = setTimeout(hangs, HANGS_MS);
    child.on('message', (message) => {
      clearTimeout(timer);
      timer = setTimeout(hangs, HANGS_MS);
      const { at, done } = Told.parse(message);
      now = at;
      if (done !== null) count(tally, at, done);
    });
    child.on('exit', (code) => {
      clearTimeout(timer);
      if (code !== 0 && code !== null)
        tally.faults.push(`input ${now}: the process ended (${code})`);
      settle(tally);
    });
  });
}

function count(
  tally: Tally,
  at: number,
  { bytes, took_ms, outcome }: NonNullable<z.infer<typeof Told>['done']>,
): void {
  tally.inputs++;
  tally.worst_ms = Math.max(tally.worst_ms, took_ms);
  if (typeof outcome !== 'string') tally.faults.push(`input ${at}: ${outcome.broken}`);
  else if (outcome === 'refused') tally.refused++;
  else if (outcome === 'taken') tally.taken++;
  else tally.inPart++;
  const most_ms = MOST_MS * Math.max(1, bytes / 1e6);
  if (took_ms > most_ms) {
    tally.faults.push(`input ${at}: ${bytes} bytes took ${Math.round(took_ms)} ms`);
  }
}
