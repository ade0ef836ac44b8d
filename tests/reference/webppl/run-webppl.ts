import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import * as z from 'zod';

/** Odds of one nest as nest-odds.wppl prints them. */
const Odds = z.object({ tonight: z.number(), already: z.number(), never: z.number() });
export type EnumeratedOdds = z.infer<typeof Odds>;

/**
 * Runs nest-odds.wppl in WebPPL (webppl.org; Goodman and Stuhlmueller, "The Design and Implementation
 * of Probabilistic Programming Languages", dippl.org; from memory), a general-purpose probabilistic language, in a
 * process of its own. Throws with what it printed when it fails.
 */
export function enumerateOdds(input: unknown): EnumeratedOdds[] {
  const require = createRequire(import.meta.url);
  const webppl = dirname(require.resolve('webppl/package.json'));
  const program = join(import.meta.dirname, 'nest-odds.wppl');
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(webppl, 'webppl'), program, '--', '--input', JSON.stringify(input)],
    { encoding: 'utf8', maxBuffer: 1e7 },
  );
  if (status !== 0) throw new Error(`webppl failed: ${stderr || stdout}`);
  return z.array(Odds).parse(JSON.parse(stdout));
}
