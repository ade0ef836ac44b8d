// npm run test:engines: every journey in full in Firefox and in WebKitGTK. What follows `--` goes to
// vitest, e.g. `npm run test:engines -- season` or `npm run test:engines -- --project webkit`.
import { join } from 'node:path';
import { ensureEngines } from './engines.mjs';
import { ensureInstalled, requireNode } from './install.mjs';
import { run } from './run.mjs';

requireNode();
ensureInstalled();
const missing = ensureEngines();
if (missing.length > 0) {
  console.error(
    `Not here: ${missing.join(' and ')}. On Debian: ` +
      'sudo apt-get install firefox-esr webkit2gtk-driver xvfb fonts-dejavu-core.',
  );
  process.exit(1);
}
const asked = process.argv.slice(2);
const projects = asked.includes('--project') ? [] : ['--project', 'firefox', '--project', 'webkit'];
const vitest = join('node_modules', 'vitest', 'vitest.mjs');
process.exit(run(process.execPath, [vitest, 'run', ...projects, ...asked], { ENGINES: 'full' }));
