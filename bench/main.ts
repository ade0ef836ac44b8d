// npm run bench -- NAME: runs bench/NAME.ts. Without a name, says which there are.
import { readdirSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import * as z from 'zod';

/** What every bench exports. It prints what it found; nothing is judged by time in a test. */
const Bench = z.object({
  run: z.custom<() => Promise<void>>((value) => typeof value === 'function'),
});

/** Files here that are no bench. */
const NO_BENCH = new Set([
  'main.ts',
  'measure.ts',
  'seasons.ts',
  'coast.ts',
  'operations.ts',
  'one-look.ts',
]);

const names = readdirSync(import.meta.dirname)
  .filter((file) => file.endsWith('.ts') && !NO_BENCH.has(file))
  .map((file) => file.slice(0, -'.ts'.length));

const [name] = process.argv.slice(2);
if (name === undefined) {
  console.log(`npm run bench -- NAME, where NAME is one of: ${names.join(', ') || '(none yet)'}`);
} else if (names.includes(name)) {
  const file = pathToFileURL(`${import.meta.dirname}/${name}.ts`).href;
  const loaded: unknown = await import(file);
  await Bench.parse(loaded).run();
} else {
  console.error(`There is no bench "${name}". There are: ${names.join(', ') || '(none yet)'}`);
  process.exitCode = 2;
}
