import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import * as z from 'zod';
import config from '../../.dependency-cruiser.mjs';

const Report = z.object({
  summary: z.object({
    violations: z.array(z.object({ from: z.string(), rule: z.object({ name: z.string() }) })),
  }),
});

/** Rules broken by each file of a small source tree, as `npm run imports` would report them. */
function broken(tree: Readonly<Record<string, string>>): Map<string, string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'firstdark-imports-'));
  try {
    const root = resolve(import.meta.dirname, '../..');
    symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'));
    for (const name of ['package.json', 'tsconfig.base.json', 'tsconfig.browser.json']) {
      copyFileSync(join(root, name), join(folder, name));
    }
    for (const [path, text] of Object.entries(tree)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    const { stdout } = spawnSync(
      join(root, 'node_modules', '.bin', 'depcruise'),
      ['--config', join(root, '.dependency-cruiser.mjs'), '--output-type', 'json', 'src'],
      { cwd: folder, encoding: 'utf8' },
    );
    const found = new Map<string, string[]>();
    for (const { from, rule } of Report.parse(JSON.parse(stdout)).summary.violations) {
      found.set(from, [...new Set([...(found.get(from) ?? []), rule.name])]);
    }
    return found;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const leaf = 'export const leaf = 1;\n';
const uses = (...paths: string[]) => paths.map((path) => `export * from '${path}';\n`).join('');
const svelteUses = (path: string) =>
  `<script lang="ts">\n  import { leaf } from '${path}';\n</script>\n\n<p>{leaf}</p>\n`;

/** A file of each folder that others may want. */
const GROUND = {
  'src/core/numerics/sum.ts': leaf,
  'src/core/domain/nest.ts': leaf,
  'src/core/log/fold.ts': leaf,
  'src/core/inference/grid.ts': leaf,
  'src/core/sky/sun.ts': leaf,
  'src/core/forecast/tonight.ts': leaf,
  'src/core/exchange/csv.ts': leaf,
  'src/edges/store/indexed-log.ts': leaf,
  'src/edges/disk/json-lines-log.ts': leaf,
  'src/app/state/night.svelte.ts': leaf,
  'src/app/screens/tonight.ts': leaf,
  'src/cli/wiring/open.ts': leaf,
  'src/hub/routes.ts': leaf,
  'tests/builders/nest.ts': leaf,
};

/** For each rule, a file that breaks it. */
const BREAKERS: readonly (readonly [rule: string, file: string, text: string])[] = [
  ['core/numerics imports down only', 'core/numerics/bad.ts', uses('../domain/nest.ts')],
  ['core/domain imports down only', 'core/domain/bad.ts', uses('../log/fold.ts')],
  ['core/inference imports down only', 'core/inference/bad.ts', uses('../domain/nest.ts')],
  ['core/thermal imports down only', 'core/thermal/bad.ts', uses('../sky/sun.ts')],
  ['core/acoustics imports down only', 'core/acoustics/bad.ts', uses('../log/fold.ts')],
  ['core/sky imports down only', 'core/sky/bad.ts', uses('../log/fold.ts')],
  ['core/orientation imports down only', 'core/orientation/bad.ts', uses('../sky/sun.ts')],
  ['core/replication imports down only', 'core/replication/bad.ts', uses('../forecast/tonight.ts')],
  ['core/emergence imports down only', 'core/emergence/bad.ts', uses('../sky/sun.ts')],
  ['core/inventory imports down only', 'core/inventory/bad.ts', uses('../sky/sun.ts')],
  ['core/log imports down only', 'core/log/bad.ts', uses('../forecast/tonight.ts')],
  [
    'core/invented-season imports down only',
    'core/invented-season/bad.ts',
    uses('../inference/grid.ts'),
  ],
  ['core/exchange imports down only', 'core/exchange/bad.ts', uses('../forecast/tonight.ts')],
  ['core/forecast imports down only', 'core/forecast/bad.ts', uses('../exchange/csv.ts')],
  ['core/season-report imports down only', 'core/season-report/bad.ts', uses('../exchange/csv.ts')],
  ['core/roster imports down only', 'core/roster/bad.ts', uses('../forecast/tonight.ts')],
  ['edges imports down only', 'edges/store/bad.ts', uses('../disk/json-lines-log.ts')],
  ['edges imports down only', 'edges/device/bad.ts', uses('../../app/screens/tonight.ts')],
  ['hub imports down only', 'hub/bad.ts', uses('../core/forecast/tonight.ts')],
  ['app/components imports down only', 'app/components/bad.ts', uses('../state/night.svelte.ts')],
  [
    'app/components imports down only',
    'app/components/Bad.svelte',
    svelteUses('../screens/tonight.ts'),
  ],
  ['app/state imports down only', 'app/state/bad.ts', uses('../screens/tonight.ts')],
  ['app/workers imports down only', 'app/workers/bad.ts', uses('../state/night.svelte.ts')],
  ['app/screens imports down only', 'app/screens/bad.ts', uses('../../edges/store/indexed-log.ts')],
  ['app/wiring imports down only', 'app/wiring/bad.ts', uses('../screens/tonight.ts')],
  ['words imports down only', 'words/bad.ts', uses('../core/domain/nest.ts')],
  ['app/styles imports down only', 'app/styles/bad.ts', uses('../state/night.svelte.ts')],
  [
    'cli/commands imports down only',
    'cli/commands/bad.ts',
    uses('../../app/state/night.svelte.ts'),
  ],
  ['cli/wiring imports down only', 'cli/wiring/bad.ts', uses('../../app/state/night.svelte.ts')],
  ['cli does not import app', 'cli/main.ts', uses('../app/state/night.svelte.ts')],
  ['app does not import cli or hub', 'app/screens/cli.ts', uses('../../cli/wiring/open.ts')],
  ['only wiring chooses the edges', 'app/service-worker.ts', uses('../edges/store/indexed-log.ts')],
  ['every folder has a row in the table', 'core/utils/bad.ts', uses('../domain/nest.ts')],
  ['only folders of the table are imported', 'app/main.ts', uses('./extras/thing.ts')],
  ['no circles', 'core/domain/chicken.ts', uses('./egg.ts')],
  ['core runs anywhere', 'core/log/read.ts', "export { readFileSync } from 'node:fs';\n"],
  [
    'only cli, hub and edges/disk run on Node',
    'edges/files/bad.ts',
    "export { readFileSync } from 'node:fs';\n",
  ],
  ['core has no framework', 'core/forecast/mount.ts', "export { mount } from 'svelte';\n"],
  ['meyda has one place', 'core/acoustics/level.ts', "export * from 'meyda';\n"],
  [
    'astronomy-engine has one place',
    'core/forecast/moon.ts',
    "export * from 'astronomy-engine';\n",
  ],
  ['geomagnetism has one place', 'core/sky/north.ts', "export * from 'geomagnetism';\n"],
  ['wuchale has one place', 'app/wiring/words.ts', "export * from 'wuchale/load-utils';\n"],
  ['idb has one place', 'app/wiring/database.ts', "export * from 'idb';\n"],
  ['read-excel-file has one place', 'app/wiring/sheet.ts', "export * from 'read-excel-file';\n"],
  ['highs has one place', 'app/workers/solve.ts', "export * from 'highs';\n"],
  [
    'fastify|postgres|@electric-sql/pglite has one place',
    'cli/wiring/serve.ts',
    "export * from 'fastify';\n",
  ],
  ['comlink has one place', 'app/state/worker.ts', "export * from 'comlink';\n"],
  ['src stands by itself', 'core/domain/test.ts', uses('../../../tests/builders/nest.ts')],
  ['what is imported exists', 'core/domain/gone.ts', uses('./nowhere.ts')],
  ['shipped code needs no tool', 'cli/commands/tool.ts', "export * from 'fast-check';\n"],
];

test('every rule about imports is broken by a file made to break it, and by none made to keep it', () => {
  const tree = Object.fromEntries(BREAKERS.map(([, file, text]) => [`src/${file}`, text]));
  const found = broken({
    ...GROUND,
    ...tree,
    'src/core/domain/egg.ts': uses('./chicken.ts'),
    'src/app/extras/thing.ts': leaf,
  });
  for (const [rule, file] of BREAKERS) {
    expect(found.get(`src/${file}`) ?? [], `src/${file}`).toContain(rule);
  }
  for (const file of Object.keys(GROUND)) expect(found.get(file), file).toBeUndefined();
});

test('no rule about imports is left untried', () => {
  const tried = new Set(BREAKERS.map(([rule]) => rule));
  expect(config.forbidden.map(({ name }) => name).filter((name) => !tried.has(name))).toEqual([]);
});

test('imports that go down the ladder are allowed', () => {
  const found = broken({
    ...GROUND,
    'src/core/forecast/fine.ts': uses('../inference/grid.ts', '../log/fold.ts', '../sky/sun.ts'),
    'src/core/exchange/fine.ts': uses('../log/fold.ts', '../domain/nest.ts'),
    'src/edges/store/fine.ts': `${uses('./indexed-log.ts', '../../core/log/fold.ts')}export * from 'idb';\n`,
    'src/edges/disk/fine.ts': "export { readFileSync } from 'node:fs';\n",
    'src/app/components/Fine.svelte': svelteUses('../../core/domain/nest.ts'),
    'src/app/screens/Fine.svelte': svelteUses('../state/night.svelte.ts'),
    'src/app/wiring/fine.ts': uses('../../edges/store/indexed-log.ts', '../state/night.svelte.ts'),
    'src/app/main.ts': "import 'virtual:pwa-register';\nexport * from './wiring/fine.ts';\n",
    'src/cli/commands/fine.ts': uses('../../edges/disk/json-lines-log.ts', '../wiring/open.ts'),
  });
  expect(Object.fromEntries(found)).toEqual({});
});

test('every rule about imports says what to do instead', () => {
  for (const { name, comment } of config.forbidden) {
    expect(comment.split(/[.:] /).length, `${name}: ${comment}`).toBeGreaterThan(1);
  }
});
