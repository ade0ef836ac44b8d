import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { wuchale } from 'wuchale/vite';
import { contentSecurityPolicy } from './scripts/security-headers.mjs';

/** The roster's solver is 3.5 MB; everything the app can need must be on the phone before dark. */
const LARGEST_CACHED_BYTES = 8 * 2 ** 20;

/** Writes the policy into the built index.html, for hosts whose headers we do not choose. */
function policyInPage(): Plugin {
  return {
    name: 'policy-in-page',
    apply: 'build',
    transformIndexHtml: () => [
      {
        tag: 'meta',
        attrs: {
          'http-equiv': 'Content-Security-Policy',
          content: contentSecurityPolicy({ inMeta: true }),
        },
        injectTo: 'head-prepend',
      },
    ],
  };
}

/**
 * What later parts of a worker share with its start is in a file of its own. From the file that a
 * worker was started with they must take nothing: WebKit begins that one anew for whoever imports
 * it, and its words would be others, never loaded.
 */
const besideStart = {
  name: (id: string) =>
    /\/(src\/words|wuchale\/dist)\//.test(id) && !id.includes('.compiled.') ? 'words' : null,
};

/** Who imports a module, without what is only fetched when it is used. */
interface Importers {
  getModuleInfo(id: string): { readonly importers: readonly string[] } | null;
}

/** What is part of one of these comes as one file, whatever else shares parts of it. */
function wholeOf(name: string, entry: string, priority: number) {
  return {
    name: (id: string, graph: Importers) => (leadsTo(entry, id, graph, new Set()) ? name : null),
    priority,
  };
}

function leadsTo(entry: string, id: string, graph: Importers, seen: Set<string>): boolean {
  if (id.endsWith(entry)) return true;
  if (seen.has(id)) return false;
  seen.add(id);
  return (
    graph.getModuleInfo(id)?.importers.some((one) => leadsTo(entry, one, graph, seen)) ?? false
  );
}

/**
 * The app waits for the words of its language, and both for its styles; the page asks for all of
 * them at once. first-paint.js chooses among the files of words, which stand beside it.
 */
function askedAhead(): Plugin {
  return {
    name: 'asked-ahead',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler: (page, { bundle }) => {
        const chunks = Object.values(bundle ?? {}).filter((file) => file.type === 'chunk');
        const app = chunks.find(({ name }) => name === 'app');
        if (app === undefined) throw new Error('The build holds no chunk of the first screen.');
        const words = chunks.flatMap(({ name, fileName }) => {
          const [, language] = /\.(\w+)\.compiled$/.exec(name) ?? [];
          return language === undefined ? [] : [`data-${language}="./${fileName}"`];
        });
        const choice = '<script src="./first-paint.js"';
        if (words.length < 2 || !page.includes(choice)) {
          throw new Error('The words of the languages, or who chooses among them, are not there.');
        }
        const link = (rel: string) => (name: string) => ({
          tag: 'link',
          attrs: { rel, href: `./${name}`, crossorigin: rel === 'stylesheet' },
          injectTo: 'head' as const,
        });
        const isNew = (name: string): boolean => !page.includes(name);
        return {
          html: page.replace(choice, `${choice} ${words.join(' ')}`),
          tags: [
            ...[app.fileName, ...app.imports].filter(isNew).map(link('modulepreload')),
            ...[...(app.viteMetadata?.importedCss ?? [])].filter(isNew).map(link('stylesheet')),
          ],
        };
      },
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [
    wuchale(),
    svelte(),
    policyInPage(),
    askedAhead(),
    VitePWA({
      // A new version waits until somebody says so: nothing may reload in the middle of a watch.
      registerType: 'prompt',
      // main.ts registers it; the plugin's own snippet would be an inline script.
      injectRegister: false,
      manifest: {
        name: 'Firstdark',
        short_name: 'Firstdark',
        description: 'Which turtle nest comes up tonight: odds, notes and a watch list.',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#000000',
        theme_color: '#000000',
        icons: [
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
          {
            src: 'icon-maskable-512.png',
            sizes: '512x512',
            type: 'image/png',
            purpose: 'maskable',
          },
          { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' },
        ],
      },
      includeManifestIcons: false,
      workbox: {
        mode: 'production',
        globPatterns: ['**/*'],
        globIgnores: ['sw.js', 'workbox-*.js'],
        maximumFileSizeToCacheInBytes: LARGEST_CACHED_BYTES,
        cleanupOutdatedCaches: true,
        inlineWorkboxRuntime: true,
        sourcemap: false,
      },
    }),
  ],
  worker: {
    format: 'es',
    plugins: () => [wuchale()],
    rolldownOptions: { output: { codeSplitting: { groups: [besideStart] } } },
  },
  build: {
    target: 'es2022',
    sourcemap: false,
    // Both would put code or data into the page that its own policy forbids.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    rolldownOptions: {
      output: {
        codeSplitting: {
          groups: [
            // What is needed before the words are there must not wait in one file with the rest.
            wholeOf('ahead', '/app/main.ts', 2),
            wholeOf('app', '/app/start.ts', 1),
          ],
        },
      },
    },
  },
});
