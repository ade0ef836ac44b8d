// Finds the browser that the tests drive, and installs it where that is ours to do.
import { existsSync, readFileSync } from 'node:fs';
import { run } from './run.mjs';

const USUAL_PLACE = '/usr/bin/chromium';

/** The path of Chromium: CHROMIUM from the environment, else Debian's place; null when neither is there. */
export function findChromium() {
  const path = process.env.CHROMIUM || USUAL_PLACE;
  return existsSync(path) ? path : null;
}

/** True on Debian as root, where packages of the system are ours to install. */
export function isOursToInstall() {
  return (
    process.getuid?.() === 0 &&
    existsSync('/etc/os-release') &&
    /^ID(_LIKE)?=.*debian/m.test(readFileSync('/etc/os-release', 'utf8'))
  );
}

/** Installs Chromium on Debian when run as root; false, with a message on what to do, when it is not there after that. */
export function ensureChromium() {
  if (findChromium() !== null) return true;
  if (process.env.CHROMIUM) {
    console.error(`CHROMIUM names ${process.env.CHROMIUM}, and no such file exists.`);
    return false;
  }
  if (isOursToInstall()) {
    console.log('Installing Chromium for the browser tests (apt-get) ...');
    const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
    run('apt-get', ['update', '-qq'], quiet);
    const packages = ['chromium', 'fonts-dejavu-core'];
    run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], quiet);
    if (findChromium() !== null) return true;
  }
  console.error(
    'The browser tests need Chromium. On Debian: sudo apt-get install chromium fonts-dejavu-core. ' +
      'Elsewhere install Chromium or Chrome and set CHROMIUM to the path of the program.',
  );
  return false;
}
