import { resolve } from 'node:path';
import { ESLint } from 'eslint';
import { describe, expect, test } from 'vitest';

const root = resolve(import.meta.dirname, '../..');
const eslint = new ESLint({ cwd: root });

/** Rules broken by this text if it stood in the file at `path`, which must exist. */
async function broken(path: string, text: string): Promise<string[]> {
  const [result] = await eslint.lintText(text, { filePath: resolve(root, path) });
  return (result?.messages ?? []).map(({ ruleId, message }) => `${ruleId ?? 'fatal'}: ${message}`);
}

const inCore = (text: string) => broken('src/core/domain/night.ts', `${text}\n`);

describe('lint in the core', { timeout: 60_000 }, () => {
  test.each([
    ['reading the clock', 'export const now_ms = Date.now();', 'wiring supplies the clock'],
    ['a new date of now', 'export const now = new Date();', 'wiring supplies the clock'],
    ['luck without a seed', 'export const draw = Math.random();', 'Take a seed'],
    ['the machine’s time zone', 'export const h = new Date(0).getHours();', 'time zone'],
    ['the machine’s language', 'export const f = new Intl.DateTimeFormat();', 'Name both'],
    ['the network', "export const got = fetch('https://example.org');", 'an edge fetches'],
    ['a timer', 'setTimeout(() => undefined, 1);', 'does not wait'],
    ['storage', 'export const kept: unknown = localStorage;', 'keeps nothing'],
  ])('forbids %s and says what to do instead', async (_what, text, remedy) => {
    expect((await inCore(text)).join('\n')).toContain(remedy);
  });

  test('allows a moment that is handed in', async () => {
    const text = 'export const year = (at_ms: number): number => new Date(at_ms).getUTCFullYear();';
    expect(await inCore(text)).toEqual([]);
  });
});

describe('lint everywhere', { timeout: 60_000 }, () => {
  test('asks for a reason when a rule is switched off', async () => {
    const off = '// eslint-disable-next-line no-console';
    const log = "console.log('x');";
    expect((await inCore(`${off}\n${log}`)).join('\n')).toContain('firstdark/explained-disables');
    const told = await inCore(`${off} -- printed once, for the test\n${log}`);
    expect(told.join('\n')).not.toContain('explained-disables');
  });

  test('finds a promise that nobody waits for', async () => {
    const found = await inCore('const work = async () => 1;\nwork();');
    expect(found.join('\n')).toContain('no-floating-promises');
  });

  test('finds a switch that forgets a case', async () => {
    const found = await inCore(
      "export function told(sound: 'quiet' | 'steady'): string {\n" +
        "  switch (sound) {\n    case 'quiet':\n      return 'nothing';\n  }\n  return '';\n}",
    );
    expect(found.join('\n')).toContain('switch-exhaustiveness-check');
  });

  test('forbids any', async () => {
    expect((await inCore('export const x: any = 1;')).join('\n')).toContain('no-explicit-any');
  });

  test('allows ! in a numeric kernel and nowhere else in the core', async () => {
    const text = 'export const first = (cells: Float64Array): number => cells[0]!;\n';
    expect(await broken('src/core/numerics/random.ts', text)).toEqual([]);
    expect((await inCore(text)).join('\n')).toContain('no-non-null-assertion');
  });
});
