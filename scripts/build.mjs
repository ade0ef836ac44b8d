// Builds the app into dist, when it is not there yet or older than what it is made from.
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { mustRun, ROOT } from './run.mjs';

export const DIST = join(ROOT, 'dist');

const SOURCES = [
  'src',
  'public',
  'index.html',
  'vite.config.ts',
  'wuchale.config.js',
  'svelte.config.js',
  'scripts/security-headers.mjs',
  'package-lock.json',
];

/** When the newest file at or under `path` was changed, in epoch milliseconds. */
function newest_ms(path) {
  if (!existsSync(path)) return 0;
  const found = statSync(path);
  if (!found.isDirectory()) return found.mtimeMs;
  // What starts with a dot is made by the build itself.
  const names = readdirSync(path).filter((name) => !name.startsWith('.'));
  const inside = names.map((name) => newest_ms(join(path, name)));
  return Math.max(found.mtimeMs, ...inside);
}

/** Runs the build when dist is missing or older than a source. */
export function ensureBuilt() {
  const built_ms = newest_ms(join(DIST, 'index.html'));
  if (built_ms > Math.max(...SOURCES.map((source) => newest_ms(join(ROOT, source))))) return;
  console.log('Building the app ...');
  // Under a test runner NODE_ENV says `test`, and Vite would build a slower app with checks in it.
  mustRun('npm', ['run', '--silent', 'build'], { NODE_ENV: 'production' });
}
