// npm run check: everything that can be judged without running the tests. Names what failed last.
import { ensureInstalled, requireNode } from './install.mjs';
import { gather } from './run.mjs';

/** The longest first, so that the last ones to end are short. */
const STEPS = [
  ['lint', 'risky or impure code'],
  ['types', 'types of the core, the browser and the terminal parts'],
  ['components', 'types inside Svelte components'],
  ['format:check', 'layout of the text; mend it with: npm run format'],
  ['words:check', 'texts that src/words does not have; gather them with: npm run words'],
  ['unused', 'files, exports and packages that nothing uses'],
  ['imports', 'who may import whom'],
  ['packages', 'where packages come from, their licences, known faults'],
];

/** Two steps at a time: more would only wait for each other on a small machine. */
const LANES = 2;

requireNode();
ensureInstalled();
const waiting = [...STEPS];
const failed = [];
async function lane() {
  for (let step = waiting.shift(); step !== undefined; step = waiting.shift()) {
    const [name, about] = step;
    const { code, text } = await gather('npm', ['run', '--silent', name]);
    console.log(`\n--- ${name}: ${about}\n${text.trim()}`);
    if (code !== 0) failed.push(step);
  }
}
await Promise.all(Array.from({ length: LANES }, lane));

console.log('');
for (const [name, about] of failed) console.error(`check failed: ${name} (${about})`);
if (failed.length === 0) console.log('check passed');
process.exitCode = failed.length === 0 ? 0 : 1;
