// npm run packages: judges the packages by the lock, and asks the registry what is known of them.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { judgePackages, shipped } from './judge-packages.mjs';
import { gather, ROOT } from './run.mjs';

/** No reason for the check to wait where nobody answers. */
const PATIENCE_MS = 10_000;

const read = (path) => JSON.parse(readFileSync(join(ROOT, path), 'utf8'));
const lock = read('package-lock.json');
const manifest = read('package.json');
const manifestOf = (path) =>
  existsSync(join(ROOT, path, 'package.json')) ? read(join(path, 'package.json')) : null;

const faults = judgePackages(lock, manifest, manifestOf);
const count = Object.keys(lock.packages).length - 1;
console.log(`${count} packages, ${shipped(lock, manifest).size} of them shipped.`);

/** What the registry knows against packages that are shipped, or null when it does not answer. */
async function knownFaults() {
  const asked = gather('npm', [
    'audit',
    '--json',
    '--omit=dev',
    '--fetch-retries=0',
    `--fetch-timeout=${PATIENCE_MS}`,
  ]);
  const { text } = await asked;
  try {
    const { vulnerabilities } = JSON.parse(
      text.slice(text.indexOf('{'), text.lastIndexOf('}') + 1),
    );
    return vulnerabilities === undefined ? null : Object.values(vulnerabilities);
  } catch {
    return null;
  }
}

const known = await knownFaults();
if (known === null) {
  console.log(
    'npm audit: the registry gave no answer, so faults that are known were not looked up.',
  );
} else {
  console.log(`npm audit: ${known.length} shipped packages with known faults.`);
  for (const { name, severity, range } of known) {
    if (severity === 'high' || severity === 'critical') {
      faults.push(`${name} ${range}: a known fault, ${severity}. See npm audit.`);
    }
  }
}

for (const fault of faults) console.error(fault);
process.exitCode = faults.length === 0 ? 0 : 1;
