// Sounds of the real world for the bench of the detector, out of openly licensed Debian packages.
// Fetched with apt-get and read by Chromium, kept as plain samples in .cache/recordings.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join, relative } from 'node:path';
import { chromium } from 'playwright-core';
import { findChromium } from '../../scripts/chromium.mjs';
import { type Kind, type Part, sources } from './recording-sources.ts';

export interface Recording {
  readonly kind: Kind;
  readonly part: Part;
  readonly name: string;
  readonly package: string;
  readonly licence: string;
  readonly glob: string;
  readonly samples: Float64Array;
}

/** Samples a second of every recording here. */
export const recordingRate_hz = 22_050;

const room = join(import.meta.dirname, '../../.cache/recordings');

/** Every recording, fetched when it is not here yet; throws when there is neither network nor cache. */
export async function recordings(): Promise<readonly Recording[]> {
  const found = sources.flatMap((source) => {
    const folder = unpacked(source.package);
    const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
    return names
      .filter((name) => source.files.test(name))
      .slice(0, source.most)
      .map((name) => ({ source, path: join(folder, name) }));
  });
  await decode(found.map(({ path }) => path).filter((path) => !existsSync(plainOf(path))));
  return found.flatMap(({ source, path }) => {
    const bytes = readFileSync(plainOf(path));
    const plain = new Float32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 4);
    const samples = Float64Array.from(plain);
    const { kind, part, licence, glob } = source;
    const name = basename(path);
    return [{ kind, part, name, package: source.package, licence, glob, samples }];
  });
}

function unpacked(name: string): string {
  const folder = join(room, 'packages', name);
  if (existsSync(folder)) return folder;
  const debs = join(room, 'debs');
  mkdirSync(debs, { recursive: true });
  execFileSync('apt-get', ['download', name], { cwd: debs, stdio: 'ignore' });
  const deb = readdirSync(debs).find((file) => file.startsWith(`${name}_`));
  if (deb === undefined) throw new Error(`apt-get gave no ${name}.`);
  mkdirSync(folder, { recursive: true });
  execFileSync('dpkg-deb', ['-x', join(debs, deb), folder]);
  for (const pack of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!pack.endsWith('.pk3')) continue;
    execFileSync('unzip', ['-qo', join(folder, pack), '*.wav', '-d', `${folder}/pack`]);
  }
  return folder;
}

const plainOf = (path: string): string =>
  join(room, 'plain', `${relative(join(room, 'packages'), path).replaceAll('/', '__')}.f32`);

async function decode(paths: readonly string[]): Promise<void> {
  if (paths.length === 0) return;
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('Chromium is needed to read the recordings.');
  mkdirSync(join(room, 'plain'), { recursive: true });
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] });
  try {
    const page = await browser.newPage();
    for (const path of paths) {
      const encoded = readFileSync(path).toString('base64');
      const text = await page.evaluate(
        async ({ encoded, rate_hz }) => {
          const bytes = Uint8Array.from(atob(encoded), (letter) => letter.charCodeAt(0));
          const context = new OfflineAudioContext(1, 1, rate_hz);
          const heard = await context.decodeAudioData(bytes.buffer);
          const raw = new Uint8Array(heard.getChannelData(0).slice().buffer);
          let letters = '';
          for (let at = 0; at < raw.length; at += 8192)
            letters += String.fromCharCode(...raw.subarray(at, at + 8192));
          return btoa(letters);
        },
        { encoded, rate_hz: recordingRate_hz },
      );
      writeFileSync(plainOf(path), Buffer.from(text, 'base64'));
    }
  } finally {
    await browser.close();
  }
}
