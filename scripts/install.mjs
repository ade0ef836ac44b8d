// Installs what package-lock.json names, when it is not there yet.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mustRun, ROOT } from './run.mjs';

const OLDEST_NODE = [20, 19];

/** Ends with a clear message when this Node is too old for the tools. */
export function requireNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > OLDEST_NODE[0] || (major === OLDEST_NODE[0] && minor >= OLDEST_NODE[1])) return;
  console.error(
    `This is Node ${process.versions.node}; Firstdark needs ${OLDEST_NODE.join('.')} or later. ` +
      'Install a newer one from https://nodejs.org and try again.',
  );
  process.exit(1);
}

/** True when every package that package-lock.json asks for is installed in that version. */
function isInstalled() {
  const installedFile = join(ROOT, 'node_modules', '.package-lock.json');
  if (!existsSync(installedFile)) return false;
  const wanted = JSON.parse(readFileSync(join(ROOT, 'package-lock.json'), 'utf8')).packages;
  const installed = JSON.parse(readFileSync(installedFile, 'utf8')).packages;
  return Object.entries(wanted).every(
    ([path, { version, optional, devOptional }]) =>
      path === '' ||
      (installed[path]?.version ?? (optional || devOptional ? version : null)) === version,
  );
}

/** Runs `npm ci` when a package is missing or has another version than package-lock.json says. */
export function ensureInstalled() {
  if (isInstalled()) return;
  console.log('Installing what the project needs (npm ci) ...');
  mustRun('npm', ['ci', '--no-audit', '--no-fund']);
}
