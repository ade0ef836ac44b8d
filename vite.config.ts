import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
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

export default defineConfig({
  base: './',
  plugins: [
    svelte(),
    policyInPage(),
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
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    sourcemap: false,
    // Both would put code or data into the page that its own policy forbids.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
  },
});
