// Finds the browser that the tests drive, and installs it where that is ours to do.
import { existsSync } from 'node:fs';
import { FONTS, installOnDebian } from './debian.mjs';

const USUAL_PLACE = '/usr/bin/chromium';

/** The path of Chromium: CHROMIUM from the environment, else Debian's place; null when neither is there. */
export function findChromium() {
  const path = process.env.CHROMIUM || USUAL_PLACE;
  return existsSync(path) ? path : null;
}

/** Installs Chromium on Debian when run as root; false, with a message on what to do, when it is not there after that. */
export function ensureChromium() {
  if (findChromium() !== null) return true;
  if (process.env.CHROMIUM) {
    console.error(`CHROMIUM names ${process.env.CHROMIUM}, and no such file exists.`);
    return false;
  }
  installOnDebian(['chromium', FONTS], 'the browser tests');
  if (findChromium() !== null) return true;
  console.error(
    `The browser tests need Chromium. On Debian: sudo apt-get install chromium ${FONTS}. ` +
      'Elsewhere install Chromium or Chrome and set CHROMIUM to the path of the program.',
  );
  return false;
}
