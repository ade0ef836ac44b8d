// npm test: installs what is missing, checks the code, builds the app, runs every test.
// Leaves the counts in SUMMARY. A failed check or build counts as one failure.
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { ensureChromium } from './chromium.mjs';
import { missingEngines } from './engines.mjs';
import { ensureInstalled, requireNode } from './install.mjs';
import { ROOT, run } from './run.mjs';

const REPORT = join(ROOT, 'node_modules', '.cache', 'firstdark', 'vitest.json');
const SUMMARY = join(ROOT, 'node_modules', '.cache', 'firstdark', 'summary.json');

/**
 * Tests that passed and failed by vitest's own report. A test file that could not even be read, or
 * an error outside any test, counts as one failure; no report at all too.
 */
function counted(exitCode) {
  if (!existsSync(REPORT)) return { passed: 0, failed: 1 };
  const report = JSON.parse(readFileSync(REPORT, 'utf8'));
  const unread = report.testResults.filter(
    ({ status, assertionResults }) =>
      status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  );
  const failed = report.numFailedTests + unread.length;
  return { passed: report.numPassedTests, failed: exitCode === 0 ? failed : Math.max(failed, 1) };
}

requireNode();
ensureInstalled();
mkdirSync(dirname(REPORT), { recursive: true });
for (const file of [REPORT, SUMMARY]) rmSync(file, { force: true });
if (!ensureChromium()) process.exit(1);
// The other engines are tried where they are; installing them would take longer than all the rest.
const missing = missingEngines();

const broken = [];
if (run('npm', ['run', '--silent', 'check']) !== 0) broken.push('npm run check');
if (run('npm', ['run', '--silent', 'build']) !== 0) broken.push('npm run build');

console.log('\n--- tests');
const code = run(process.execPath, [
  join('node_modules', 'vitest', 'vitest.mjs'),
  'run',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${REPORT}`,
]);
const tests = counted(code);
const failed = tests.failed + broken.length;
writeFileSync(SUMMARY, JSON.stringify({ passed: tests.passed, failed }));
for (const step of broken) console.error(`failed before the tests: ${step}`);
if (missing.length > 0) {
  const names = missing.join(' and ');
  console.log(`not tried in ${names}: not installed; npm run test:engines installs and tries all`);
}
console.log(`${tests.passed} passed, ${failed} failed`);
process.exit(failed === 0 ? 0 : 1);
