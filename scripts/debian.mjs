// Installs packages of the system that the tests need, where that is ours to do: on Debian, as root.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

/** Installing may not hold up a test run for longer than this. */
const LONGEST_INSTALL_MS = 300_000;

/** Fonts without which a page on a bare machine has no letters. */
export const FONTS = 'fonts-dejavu-core';

const thisMachine = {
  isRoot: process.getuid?.() === 0,
  osRelease: existsSync('/etc/os-release') ? readFileSync('/etc/os-release', 'utf8') : '',
  apt: runApt,
};

/** Runs apt-get for so many milliseconds at most; false when it failed or took too long. */
function runApt(args, longest_ms) {
  const { status } = spawnSync('apt-get', args, {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    timeout: Math.max(1, longest_ms),
  });
  return status === 0;
}

/** Installs packages for a purpose; false where that is not ours to do, or it did not succeed. */
export function installOnDebian(packages, purpose, { isRoot, osRelease, apt } = thisMachine) {
  if (!isRoot || !/^ID(_LIKE)?=.*\bdebian\b/m.test(osRelease)) return false;
  console.log(`Installing ${packages.join(', ')} for ${purpose} (apt-get) ...`);
  const until_ms = Date.now() + LONGEST_INSTALL_MS;
  // Without reception the lists of packages stay as they are, and may do.
  apt(['update', '-qq'], until_ms - Date.now());
  const install = ['install', '-y', '-qq', '--no-install-recommends', ...packages];
  return apt(install, until_ms - Date.now());
}
