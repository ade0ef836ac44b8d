import { access, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { createServer, type Plugin } from 'vite';
import { getConfig, Hub } from 'wuchale';
import type * as LoadWords from '../../src/words/load-words.ts';
import type { Language } from '../../src/words/languages.ts';

const ROOT = join(import.meta.dirname, '../..');

/** Reads modules of the app as the page does when a language is chosen. */
export interface InLanguage {
  read(path: string): Promise<unknown>;
  close(): Promise<void>;
}

/**
 * Puts the words of a language into whatever is read, as the build does. What the build would write
 * into `src/words` is kept in memory: a test leaves the catalogues as they are.
 */
export async function inLanguage(language: Language): Promise<InLanguage> {
  const server = await createServer({
    configFile: false,
    root: ROOT,
    logLevel: 'error',
    appType: 'custom',
    server: { middlewareMode: true, hmr: false, ws: false, watch: null },
    optimizeDeps: { noDiscovery: true },
    plugins: [await wordsInMemory()],
  });
  const words = (await server.ssrLoadModule('/src/words/load-words.ts')) as typeof LoadWords;
  await words.loadWords(language);
  return {
    read: (path) => server.ssrLoadModule(`/${path}`),
    close: () => server.close(),
  };
}

async function wordsInMemory(): Promise<Plugin> {
  const written = new Map<string, string>();
  const hub = await Hub.create('build', getConfig, ROOT, 0, {
    read: (file) => readFile(file, 'utf8').catch(() => null),
    exists: (file) =>
      access(file).then(
        () => true,
        () => false,
      ),
    write: (file, text) => void written.set(resolve(file), text),
    mkdir: () => undefined,
    unlink: () => true,
  });
  return {
    name: 'words-in-memory',
    enforce: 'pre',
    resolveId(source, importer) {
      if (importer === undefined || !source.startsWith('.')) return null;
      const file = resolve(dirname(importer), source);
      return written.has(file) ? file : null;
    },
    load: (id) => written.get(id) ?? null,
    async transform(code, id) {
      const [output] = await hub.transform(code, id, true);
      return output.code === undefined ? null : { code: output.code, map: null };
    },
  };
}
