// npm run check: everything that can be judged without running the tests. Names what failed last.
import { ensureInstalled, requireNode } from './install.mjs';
import { run } from './run.mjs';

const STEPS = [
  ['format:check', 'layout of the text; mend it with: npm run format'],
  ['lint', 'risky or impure code'],
  ['types', 'types of the core, the browser and the terminal parts'],
  ['components', 'types inside Svelte components'],
  ['imports', 'who may import whom'],
  ['unused', 'files, exports and packages that nothing uses'],
];

requireNode();
ensureInstalled();
const failed = STEPS.filter(([name, about]) => {
  console.log(`\n--- ${name}: ${about}`);
  return run('npm', ['run', '--silent', name]) !== 0;
});
console.log('');
for (const [name, about] of failed) console.error(`check failed: ${name} (${about})`);
if (failed.length === 0) console.log('check passed');
process.exit(failed.length === 0 ? 0 : 1);
