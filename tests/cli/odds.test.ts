import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { firstdark, scratch } from '../builders/command-line.ts';

const Probability = z.number().check(z.gte(0), z.lte(1));
const Ranking = z.object({
  night: z.string(),
  nests: z.array(
    z.object({
      nest: z.string(),
      rank: z.int(),
      p_tonight: Probability,
      p_next3: Probability,
      p_already: Probability,
      p_never: Probability,
      median_night: z.nullable(z.string()),
      low_night: z.nullable(z.string()),
      high_night: z.nullable(z.string()),
      check_value: z.number().check(z.gte(0)),
      distribution: z.array(z.object({ night: z.string(), p: Probability })),
      why: z.array(z.object({ text: z.string(), factor: z.number().check(z.gt(0)) })),
    }),
  ),
});

let room: Awaited<ReturnType<typeof scratch>>;
let folder = '';
beforeAll(async () => {
  room = await scratch();
  folder = `${room.path}/season`;
  const made = ['--nests', '40', '--seed', '4', '--out'];
  expect((await firstdark('simulate', ...made, folder)).code).toBe(0);
  const before = ['--nests', '40', '--seed', '5', '--out'];
  expect((await firstdark('simulate', ...before, `${room.path}/last`)).code).toBe(0);
}, 60_000);
afterAll(() => room.drop());

async function ranking(...more: string[]): Promise<z.infer<typeof Ranking>> {
  const found = await firstdark('rank', folder, '--night', '2026-08-20', '--json', ...more);
  expect(found.code).toBe(0);
  return Ranking.parse(JSON.parse(found.out));
}

describe('firstdark rank', () => {
  test('gives every nest still to come, in rank order, its chances adding up to 1', async () => {
    const { night, nests } = await ranking();
    expect(night).toBe('2026-08-20');
    expect(nests.length).toBeGreaterThan(10);
    nests.forEach((nest, index) => {
      expect(nest.rank).toBe(index + 1);
      const later = nest.distribution.reduce((sum, { p }) => sum + p, 0);
      expect(Math.abs(later + nest.p_already + nest.p_never - 1)).toBeLessThan(1e-9);
      expect(nest.distribution[0]).toEqual({ night, p: nest.p_tonight });
      if (index > 0) expect(nest.p_tonight).toBeLessThanOrEqual(nests[index - 1]!.p_tonight);
    });
  });

  test('uses only what was recorded before the moment asked about', async () => {
    const noon = await ranking('--at', '2026-08-20T12:00');
    const dawn = await ranking('--at', '2026-08-21T11:59');
    expect(dawn).not.toEqual(noon);
    const default18 = await ranking();
    expect(await ranking('--at', '2026-08-20T18:00-04:00')).toEqual(default18);
  });

  test('learns from an archived season', async () => {
    const alone = await ranking();
    const taught = await ranking('--archive', `${room.path}/last`);
    expect(taught.nests.map(({ p_tonight }) => p_tonight)).not.toEqual(
      alone.nests.map(({ p_tonight }) => p_tonight),
    );
  });

  test('without --json prints a table, never 0 or 100 percent', async () => {
    const { code, out } = await firstdark('rank', folder, '--night', '2026-08-20');
    expect(code).toBe(0);
    expect(out).toMatch(/^Night of 2026-08-20/);
    expect(out).not.toMatch(/ (0|100) %/);
  });

  test('says what is wrong with a night that does not exist', async () => {
    const { code, err } = await firstdark('rank', folder, '--night', '2026-02-30');
    expect(code).toBe(2);
    expect(err).toMatch(/2026-02-30.*expected a date that exists/);
  });
});

describe('firstdark night', () => {
  test('gives the chance for the rest of the night, which its hours add up to', async () => {
    const { nests } = await ranking('--at', '2026-08-20T21:30');
    const first = nests[0]!.nest;
    const asked = ['night', folder, '--night', '2026-08-20', '--nest', first, '--json'];
    const { code, out } = await firstdark(...asked, '--at', '2026-08-20T21:30');
    expect(code).toBe(0);
    const Rest = z.object({
      nest: z.string(),
      p_rest_of_night: Probability,
      by_hour: z.array(z.object({ from: z.string(), to: z.string(), p: Probability })),
    });
    const rest = Rest.parse(JSON.parse(out));
    expect(rest.nest).toBe(first);
    expect(rest.by_hour.reduce((sum, { p }) => sum + p, 0)).toBeCloseTo(rest.p_rest_of_night, 9);
    expect(rest.p_rest_of_night).toBeGreaterThan(0);
  });

  test('knows when there is no such nest', async () => {
    const asked = ['night', folder, '--night', '2026-08-20', '--nest', 'Q-1'];
    const { code, err } = await firstdark(...asked, '--at', '2026-08-20T21:30');
    expect(code).toBe(2);
    expect(err).toContain('there is no such nest');
  });
});

describe('firstdark backtest', () => {
  test('scores the odds of a season beside the calendar rules', async () => {
    const { code, out } = await firstdark('backtest', folder, '--json');
    expect(code).toBe(0);
    const ScoreJson = z.object({
      log_score: z.number().check(z.lte(0)),
      brier: Probability,
      met_by_rank: z.array(z.object({ pairs: z.int(), share: Probability })),
    });
    const Document = z.object({
      ...ScoreJson.shape,
      nights: z.int(),
      boils: z.int(),
      calendar: ScoreJson,
      calendar_learned: ScoreJson,
      reliability: z.array(z.object({ said: Probability, happened: Probability, n: z.int() })),
    });
    const found = Document.parse(JSON.parse(out));
    expect(found.boils).toBeGreaterThan(15);
    expect(found.log_score).toBeGreaterThan(found.calendar.log_score);
    const met3 = (of: z.infer<typeof ScoreJson>): number =>
      of.met_by_rank.find(({ pairs }) => pairs === 3)?.share ?? 0;
    expect(met3(found)).toBeGreaterThan(met3(found.calendar));
  }, 60_000);
});
