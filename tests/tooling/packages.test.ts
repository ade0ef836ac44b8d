import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Lock, judgePackages, shipped } from '../../scripts/judge-packages.mjs';

const integrity = `sha512-${'A'.repeat(86)}==`;
const manifest = { dependencies: { sand: '1.2.3' }, devDependencies: { shovel: '2.0.0' } };
const sand = { version: '1.2.3', integrity, dependencies: { grain: '^1.0.0' } };
const good: Lock['packages'] = {
  '': {},
  'node_modules/sand': sand,
  'node_modules/grain': { version: '9.0.0', integrity, dev: true },
  'node_modules/sand/node_modules/grain': { version: '1.0.0', integrity },
  'node_modules/shovel': { version: '2.0.0', integrity, dev: true },
};

/** What is said of these packages, with others in place of some, when all are installed. */
function judged(
  changed: Lock['packages'],
  licences: Readonly<Record<string, unknown>> = {},
  asked: Readonly<Record<string, unknown>> = manifest,
): readonly string[] {
  return judgePackages({ packages: { ...good, ...changed } }, asked, (path) => ({
    license: licences[path] ?? 'MIT',
  }));
}

describe('packages', () => {
  test('that are pinned, whole, from the registry and free to give away are passed', () => {
    expect(judged({})).toEqual([]);
    const resolved = 'https://registry.npmjs.org/sand/-/sand-1.2.3.tgz';
    expect(judged({ 'node_modules/sand': { ...sand, resolved } })).toEqual([]);
  });

  test('from anywhere but the registry are refused', () => {
    const places = [
      'https://registry.npmjs.org.example/sand.tgz',
      'http://registry.npmjs.org/sand.tgz',
      'git+ssh://git@host.example/sand.git#1',
      'file:../sand.tgz',
    ];
    for (const resolved of places) {
      expect(judged({ 'node_modules/sand': { ...sand, resolved } })).toEqual([
        `node_modules/sand: comes from ${resolved}; expected https://registry.npmjs.org/.`,
      ]);
    }
    expect(judged({ 'node_modules/grain': { version: '1.0.0', integrity, link: true } })).toEqual([
      'node_modules/grain: is a link to a folder; expected a package of the registry.',
    ]);
  });

  test('whose content nothing vouches for are refused', () => {
    for (const weak of [undefined, '', 'sha1-AAAA', 'sha512-short==']) {
      const entry = { version: '2.0.0', ...(weak === undefined ? {} : { integrity: weak }) };
      expect(judged({ 'node_modules/shovel': entry }).join()).toMatch(/shovel: has no SHA-512/);
    }
  });

  test('that run a program while being installed are refused unless they are named', () => {
    const runs = { version: '1.0.0', integrity, hasInstallScript: true };
    expect(judged({ 'node_modules/crab': runs }).join()).toMatch(/crab: runs a program/);
    expect(judged({ 'node_modules/esbuild': runs })).toEqual([]);
  });

  test('of which a range is asked for, or another version than the lock has, are refused', () => {
    const range = { dependencies: { sand: '^1.2.3' }, devDependencies: { shovel: '2.0.1' } };
    expect(judged({}, {}, range)).toEqual([
      'package.json: sand is "^1.2.3"; expected one version, such as "1.2.3". Pin it.',
      'package-lock.json: sand is 1.2.3; package.json asks for ^1.2.3. Run npm install.',
      'package-lock.json: shovel is 2.0.0; package.json asks for 2.0.1. Run npm install.',
    ]);
    for (const version of ['latest', '*', '~1.2.3', 'github:someone/sand', '1.x']) {
      expect(judged({}, {}, { dependencies: { sand: version } }).join()).toMatch(/Pin it/);
    }
  });

  test('that are shipped must be free to give away, those they need too; tools need not', () => {
    const inner = 'node_modules/sand/node_modules/grain';
    expect(judged({}, { [inner]: 'AGPL-3.0' }).join()).toMatch(
      /grain: is shipped, and its licence/,
    );
    expect(judged({}, { [inner]: '(GPL-3.0 OR MIT)' })).toEqual([]);
    expect(judged({}, { [inner]: '(GPL-3.0 AND MIT)' })).toHaveLength(1);
    expect(judged({}, { [inner]: 'SEE LICENSE IN FILE' })).toHaveLength(1);
    expect(judged({}, { 'node_modules/shovel': 'AGPL-3.0', 'node_modules/grain': 'GPL' })).toEqual(
      [],
    );
  });
});

describe('the packages of this project', () => {
  const read = (path: string): Record<string, unknown> =>
    JSON.parse(readFileSync(path, 'utf8')) as Record<string, unknown>;
  const lock = read('package-lock.json') as unknown as Lock;
  const own = read('package.json');
  const manifestOf = (path: string): Record<string, unknown> | null =>
    existsSync(join(path, 'package.json')) ? read(join(path, 'package.json')) : null;

  test('hold nothing that is not right', () => {
    expect(judgePackages(lock, own, manifestOf)).toEqual([]);
  });

  test('ship what the browser and the hub run, and no reference that tests compare with', () => {
    const paths = shipped(lock, own);
    for (const name of ['svelte', 'workbox-precaching', 'highs', 'fastify', 'read-excel-file']) {
      expect([...paths]).toContain(`node_modules/${name}`);
    }
    for (const name of ['essentia.js', 'glpk.js', 'webppl', 'vitest', 'playwright-core']) {
      expect([...paths]).not.toContain(`node_modules/${name}`);
    }
  });
});
