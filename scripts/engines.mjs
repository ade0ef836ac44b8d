// Finds Firefox and WebKitGTK, which the journeys run in besides Chromium, and installs them where
// that is ours to do.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { isOursToInstall } from './chromium.mjs';

const DRIVER = '/usr/bin/WebKitWebDriver';
const SCREEN = '/usr/bin/Xvfb';
const LIBRARIES = '/usr/lib';

/** Installing may not hold up a test run for longer than this. */
const LONGEST_INSTALL_MS = 300_000;

/** The path of Firefox: FIREFOX from the environment, else Debian's place; null when neither is there. */
export function findFirefox() {
  const path = process.env.FIREFOX || '/usr/bin/firefox-esr';
  return existsSync(path) ? path : null;
}

/** The folders that a library of this machine may be in, e.g. /usr/lib/x86_64-linux-gnu/webkit2gtk-4.1. */
function libraryFolders() {
  if (!existsSync(LIBRARIES)) return [];
  const inside = readdirSync(LIBRARIES).map((name) => `${LIBRARIES}/${name}`);
  return [...inside, ...inside.filter((path) => path.endsWith('-linux-gnu')).flatMap(webkitsIn)];
}

function webkitsIn(folder) {
  return readdirSync(folder)
    .filter((name) => /^webkit2?gtk-/.test(name))
    .map((name) => `${folder}/${name}`);
}

/** What drives WebKitGTK, its browser and its screen, as paths; null when one of them is not there. */
export function findWebKit() {
  const browser = libraryFolders()
    .map((folder) => `${folder}/MiniBrowser`)
    .find((path) => existsSync(path));
  const isWhole = browser !== undefined && existsSync(DRIVER) && existsSync(SCREEN);
  return isWhole ? { driver: DRIVER, screen: SCREEN, browser } : null;
}

const ENGINES = [
  {
    name: 'firefox',
    title: 'Firefox',
    isHere: () => findFirefox() !== null,
    packages: ['firefox-esr'],
  },
  {
    name: 'webkit',
    title: 'WebKitGTK',
    isHere: () => findWebKit() !== null,
    packages: ['webkit2gtk-driver', 'xvfb'],
  },
];

/** Runs apt-get for at most what is left of the time; false when it failed or took too long. */
function apt(args, until) {
  const { status } = spawnSync('apt-get', args, {
    stdio: ['ignore', 'ignore', 'inherit'],
    env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    timeout: Math.max(1, until - Date.now()),
  });
  return status === 0;
}

const missing = () => ENGINES.filter(({ isHere }) => !isHere());

/** The titles of the engines that are not here. */
export function missingEngines() {
  return missing().map(({ title }) => title);
}

/** Installs the engines that are missing, on Debian as root; gives the titles of those still missing. */
export function ensureEngines() {
  if (missing().length > 0 && isOursToInstall()) {
    const packages = missing().flatMap((engine) => engine.packages);
    console.log(`Installing ${packages.join(', ')} for the journeys (apt-get) ...`);
    const until = Date.now() + LONGEST_INSTALL_MS;
    const install = ['install', '-y', '-qq', '--no-install-recommends', ...packages];
    if (apt(['update', '-qq'], until)) apt([...install, 'fonts-dejavu-core'], until);
  }
  return missingEngines();
}
