import { readdir, stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type { JourneyDownload } from './journey-page.ts';

const LONGEST_DOWNLOAD_MS = 20_000;

/** Waits for a file that was not in the folder before, and is whole. */
export async function downloadIn(folder: string): Promise<JourneyDownload> {
  const before = new Set(await readdir(folder));
  const until = Date.now() + LONGEST_DOWNLOAD_MS;
  for (;;) {
    for (const name of await readdir(folder)) {
      if (before.has(name) || name.endsWith('.wkdownload')) continue;
      const path = join(folder, name);
      const found = await stat(path);
      if (found.isFile() && found.size > 0) {
        return { path: () => Promise.resolve(path), suggestedFilename: () => basename(path) };
      }
    }
    if (Date.now() > until) throw new Error(`Nothing was downloaded in ${LONGEST_DOWNLOAD_MS} ms.`);
    await new Promise((settle) => setTimeout(settle, 50));
  }
}
