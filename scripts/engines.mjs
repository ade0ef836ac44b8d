// Finds Firefox and WebKitGTK, which the journeys run in besides Chromium, and installs them where
// that is ours to do.
import { existsSync, readdirSync } from 'node:fs';
import { FONTS, installOnDebian } from './debian.mjs';

const DRIVER = '/usr/bin/WebKitWebDriver';
const SCREEN = '/usr/bin/Xvfb';
const LIBRARIES = '/usr/lib';

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

const missing = () => ENGINES.filter(({ isHere }) => !isHere());

/** The titles of the engines that are not here. */
export function missingEngines() {
  return missing().map(({ title }) => title);
}

/** Installs the engines that are missing, on Debian as root; gives the titles of those still missing. */
export function ensureEngines() {
  const packages = missing().flatMap((engine) => engine.packages);
  if (packages.length > 0) installOnDebian([...packages, FONTS], 'the journeys');
  return missingEngines();
}
