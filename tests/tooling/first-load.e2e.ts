import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { DIST } from '../../scripts/build.mjs';
import {
  contentSecurityPolicy,
  UNUSED_FEATURES,
  USED_FEATURES,
} from '../../scripts/security-headers.mjs';
import { launch } from '../journeys/launch.ts';

/** Compressed JavaScript before the first screen, in bytes; the aim of the design. */
const MOST_JAVASCRIPT_BYTES = 170_000;

test('the first screen opens without an error, and nothing is asked of another origin', async () => {
  const app = await launch();
  try {
    const origins = new Set<string>();
    let script_bytes = 0;
    app.page.on('request', (request) => origins.add(new URL(request.url()).origin));
    app.page.on('response', (response) => {
      const { pathname } = new URL(response.url());
      if (!pathname.endsWith('.js') || response.request().serviceWorker() !== null) return;
      if (pathname !== '/sw.js')
        script_bytes += gzipSync(readFileSync(join(DIST, pathname))).length;
    });
    await app.page.goto(app.address);
    await app.page.getByRole('heading', { name: 'Firstdark' }).waitFor();
    await app.page.waitForLoadState('networkidle');
    const ahead = await app.page.evaluate(() =>
      [...document.querySelectorAll('link[rel=modulepreload], link[rel=stylesheet]')]
        .map((link) => link.getAttribute('href') ?? '')
        .filter((name) => /\.compiled-|\/app-/.test(name))
        .map((name) => performance.getEntriesByName(new URL(name, location.href).href).length),
    );
    // The app, its styles and the words of one language, each asked for once.
    expect(ahead).toEqual([1, 1, 1]);
    expect([...origins]).toEqual([app.address.slice(0, -1)]);
    expect(script_bytes).toBeGreaterThan(1000);
    expect(script_bytes).toBeLessThan(MOST_JAVASCRIPT_BYTES);
    expect(app.consoleErrors).toEqual([]);
    expect(app.failedRequests).toEqual([]);
  } finally {
    await app.close();
  }
});

test('the built page carries the security policy, and no code or style of its own', () => {
  const page = readFileSync(join(DIST, 'index.html'), 'utf8');
  const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];
  expect(policy?.replaceAll('&#39;', "'")).toBe(contentSecurityPolicy({ inMeta: true }));
  expect(page).not.toMatch(/<style|\sstyle=|\son\w+=|<script(?![^>]*\ssrc=)/);
});

test('the service worker keeps every file that was built', () => {
  const worker = readFileSync(join(DIST, 'sw.js'), 'utf8');
  const built = readdirSync(DIST, { recursive: true, encoding: 'utf8' }).filter(
    (name) => name !== 'sw.js' && statSync(join(DIST, name)).isFile(),
  );
  expect(built.length).toBeGreaterThan(5);
  expect(built.filter((name) => !worker.includes(`"${name}"`))).toEqual([]);
});

test('no part of the app takes anything from the file that a worker is started with', () => {
  const assets = join(DIST, 'assets');
  // What stands for a module of Node is never asked for in a browser.
  const names = readdirSync(assets).filter(
    (name) => name.endsWith('.js') && !name.startsWith('__vite-browser-external'),
  );
  const starts = names.filter((name) => name.includes('-worker-'));
  expect(starts.length).toBeGreaterThan(2);
  const taken = names.filter((name) => {
    const code = readFileSync(join(assets, name), 'utf8');
    return starts.some((start) => code.includes(`from"./${start}"`));
  });
  // WebKit begins that file anew for whoever imports it.
  expect(taken).toEqual([]);
});

test('a text becomes neither markup nor a script, and nothing is asked of the device but what is used', async () => {
  const app = await launch();
  try {
    await app.page.goto(app.address);
    await app.page.getByRole('heading', { name: 'Firstdark' }).waitFor();
    const tried = await app.page.evaluate(() => {
      const attempts: Record<string, () => unknown> = {
        markup: () => (document.body.innerHTML = '<img src="x">'),
        'a worker of ours by its name': () => new Worker('sw.js'),
        'a worker from text': () => new Worker(URL.createObjectURL(new Blob(['close()']))),
        'a script': () => (document.createElement('script').text = 'void 0'),
        'a frame of text': () => (document.createElement('iframe').srcdoc = '<p>x'),
        'code in an attribute': () => {
          document.body.setAttribute('onclick', 'void 0');
        },
        'another policy': () => window.trustedTypes?.createPolicy('another', guard),
        'our policy again': () => window.trustedTypes?.createPolicy('firstdark-own-script', guard),
      };
      const guard = { createScriptURL: (address: string) => address };
      return Object.entries(attempts)
        .filter(([, attempt]) => {
          try {
            attempt();
            return true;
          } catch {
            return false;
          }
        })
        .map(([name]) => name);
    });
    expect(tried).toEqual([]);

    const allowed = new Set(
      await app.page.evaluate(() => document.featurePolicy?.allowedFeatures() ?? []),
    );
    expect(UNUSED_FEATURES.filter((feature) => allowed.has(feature))).toEqual([]);
    expect(USED_FEATURES.filter((feature) => !allowed.has(feature))).toEqual([]);
  } finally {
    await app.close();
  }
});

declare global {
  interface Window {
    readonly trustedTypes?: { createPolicy(name: string, rules: object): unknown };
  }
  interface Document {
    /** Chromium's own word for what a page may ask for. */
    readonly featurePolicy?: { allowedFeatures(): string[] };
  }
}
