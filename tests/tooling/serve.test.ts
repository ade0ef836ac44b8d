import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { contentSecurityPolicy } from '../../scripts/security-headers.mjs';
import { fileFor, serveFolder, type Served } from '../../scripts/serve.mjs';

const outer = mkdtempSync(join(tmpdir(), 'firstdark-serve-'));
const folder = join(outer, 'dist');
let served: Served;

beforeAll(async () => {
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(join(outer, 'secret.txt'), 'not for the browser');
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Firstdark</title>');
  writeFileSync(join(folder, '.hidden'), 'not for the browser');
  writeFileSync(join(folder, 'assets', 'app-1a2b3c.js'), 'export {};');
  writeFileSync(join(folder, 'assets', 'solver.wasm'), 'wasm');
  served = await serveFolder(folder);
});

afterAll(async () => {
  await served.close();
  rmSync(outer, { recursive: true, force: true });
});

const get = (path: string, init?: RequestInit) => fetch(`${served.address}${path}`, init);

/** The status of a path sent as it is, without the tidying that fetch does first. */
function statusOf(path: string): Promise<number> {
  return new Promise((done, fail) => {
    const sent = request({ host: '127.0.0.1', port: served.port, path }, (response) => {
      response.resume();
      done(response.statusCode ?? 0);
    });
    sent.on('error', fail);
    sent.end();
  });
}

describe('the server of the built app', () => {
  test('gives the page for the bare address, and each file with its own type', async () => {
    expect(await (await get('')).text()).toContain('Firstdark');
    expect((await get('')).headers.get('content-type')).toBe('text/html; charset=utf-8');
    const script = await get('assets/app-1a2b3c.js');
    expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
    expect((await get('assets/solver.wasm')).headers.get('content-type')).toBe('application/wasm');
  });

  test('sends the security policy with every answer, errors too', async () => {
    for (const path of ['', 'assets/app-1a2b3c.js', 'nowhere.js']) {
      const { headers } = await get(path);
      expect(headers.get('content-security-policy')).toBe(contentSecurityPolicy());
      expect(headers.get('x-content-type-options')).toBe('nosniff');
    }
  });

  test('lets a file with a hash in its name be kept, and the page be asked for again', async () => {
    const script = await get('assets/app-1a2b3c.js');
    expect(script.headers.get('cache-control')).toContain('immutable');
    const page = await get('');
    expect(page.headers.get('cache-control')).toBe('no-cache');
    const tag = page.headers.get('etag') ?? '';
    expect((await get('', { headers: { 'If-None-Match': tag } })).status).toBe(304);
  });

  test.each([
    '/../secret.txt',
    '/assets/../../secret.txt',
    '/..%2fsecret.txt',
    '/%2e%2e/secret.txt',
    '/..%5csecret.txt',
    '/.hidden',
    '/assets',
    '/%00',
    '/%',
    '/nowhere.js',
  ])('answers 404 to %s', async (path) => {
    expect(await statusOf(path)).toBe(404);
  });

  test('answers 405 to a request that would change something', async () => {
    expect((await get('', { method: 'POST', body: 'x' })).status).toBe(405);
  });

  test('packs a script for whoever can unpack it, and for nobody else', async () => {
    const packed = await get('assets/app-1a2b3c.js', { headers: { 'accept-encoding': 'gzip' } });
    expect(packed.headers.get('content-encoding')).toBe('gzip');
    expect(await packed.text()).toBe('export {};');
    const plain = await get('assets/app-1a2b3c.js', { headers: { 'accept-encoding': 'identity' } });
    expect(plain.headers.get('content-encoding')).toBeNull();
    expect(await plain.text()).toBe('export {};');
  });

  test('answers HEAD with the headers alone', async () => {
    const asIs = { 'accept-encoding': 'identity' };
    const head = await get('', { method: 'HEAD', headers: asIs });
    expect(head.headers.get('content-length')).toBe('39');
    expect(await head.text()).toBe('');
  });

  test('takes the next free port when its own is taken', async () => {
    const second = await serveFolder(folder, { port: served.port, tries: 20 });
    expect(second.port).toBeGreaterThan(served.port);
    await second.close();
  });

  test('says so when the only port it may take is taken', async () => {
    await expect(serveFolder(folder, { port: served.port })).rejects.toThrow('EADDRINUSE');
  });
});

test('a path is resolved inside the folder or not at all', () => {
  expect(fileFor('/srv/app', '/assets/a.js?v=1')).toBe('/srv/app/assets/a.js');
  expect(fileFor('/srv/app', '/')).toBe('/srv/app/index.html');
  expect(fileFor('/srv/app', '/../app-other/a.js')).toBeNull();
});

test('the policy allows no inline code and no other origin', () => {
  const policy = contentSecurityPolicy();
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
  expect(policy).toContain("default-src 'self'");
});

test('the policy in the page leaves out what only a header can say', () => {
  expect(contentSecurityPolicy()).toContain('frame-ancestors');
  expect(contentSecurityPolicy({ inMeta: true })).not.toContain('frame-ancestors');
});
